import { describe, expect, test } from '@jest/globals';
import { momentAtSite } from './moment-at-site.js';
import { type OldWork, readOldWork } from './old-work.js';

const now = new Date('2025-11-25T12:00:00Z');
const row = (about: Partial<OldWork> = {}): OldWork => ({
  at: '2020-06-11',
  title: 'Seal leaking',
  kind: 'breakdown',
  positionId: null,
  minutes: 90,
  by: 'Fitter',
  note: '',
  failure: { severity: 'can wait', downFrom: null, restoredAt: null, failureMode: null, mechanism: null, cause: '', remedy: '' },
  ...about,
});
const fields = (about: Partial<OldWork>) => readOldWork([row(about)], 'Europe/Madrid', now).faults.map(({ field }) => field);

describe('a day of an old record', () => {
  test('stays that day, east and west', () => {
    for (const zone of ['Pacific/Auckland', 'America/Los_Angeles', 'Europe/Madrid']) {
      const at = momentAtSite('2020-06-11', zone) ?? now;
      expect(new Intl.DateTimeFormat('sv-SE', { timeZone: zone }).format(at)).toBe('2020-06-11');
    }
  });

  test.each(['11.06.2020', '2020-06-31', '', '2020-06-11T08:00', '0001-01-01'])('"%s" is none', (text) => expect(momentAtSite(text, 'Etc/UTC')).toBeNull());
});

describe('old work', () => {
  test('is read with its times', () => {
    const read = readOldWork([row()], 'Europe/Madrid', now);
    expect(read.faults).toEqual([]);
    expect(read.rows).toMatchObject([{ at: new Date('2020-06-11T10:00:00Z'), title: 'Seal leaking', failure: { severity: 'can wait' } }]);
  });

  test('that cannot be so is told by row and field, and the other rows are read', () => {
    const { rows, faults } = readOldWork([row({ at: 'yesterday' }), row(), row({ kind: 'service' })], 'Etc/UTC', now);
    expect(rows).toHaveLength(1);
    expect(faults.map(({ index, field }) => [index, field])).toEqual([
      [0, 'at'],
      [2, 'kind'],
    ]);
  });

  test('is past, and a breakdown has a failure whose times agree', () => {
    const { failure } = row();
    expect(fields({ at: '2027-01-01' })).toEqual(['at']);
    expect(fields({ failure: null })).toEqual(['failure']);
    expect(fields({ failure: failure && { ...failure, downFrom: '2020-06-12', restoredAt: '2020-06-10' } })).toEqual(['failure/restoredAt']);
    expect(fields({ failure: failure && { ...failure, downFrom: 'then' } })).toEqual(['failure/downFrom']);
  });
});
