import { describe, expect, test } from '@jest/globals';
import { doubtsOfOutlook } from './doubts-of-outlook.js';

const doubt = {
  signal: 'feed_pressure',
  reason: 'feed pressure was found 12 kPa high on 20 Nov 2026',
  fromDay: '2026-08-01',
  toDay: '2026-11-20',
};
const outlook = { limit: 'permeability', firstDay: '2026-10-01', lastDay: '2026-11-25', basis: { scheme: 'dead-end', tmpFrom: 'pressures' } } as const;

describe('an outlook', () => {
  test('says which of its days rest on an instrument that was found wrong', () => {
    expect(doubtsOfOutlook([doubt], outlook)).toEqual([
      'Feed pressure was found 12 kPa high on 20 Nov 2026: days from 1 Aug 2026 to 20 Nov 2026 are doubtful.',
    ]);
  });

  test('says so too while the instrument is still wrong', () => {
    expect(doubtsOfOutlook([{ ...doubt, toDay: null }], outlook)[0]).toMatch(/days from 1 Aug 2026 are doubtful until the next calibration/);
  });

  test.each([
    ['that ended before its first day', { toDay: '2026-09-30' }, {}],
    ['that began after its last day', { fromDay: '2026-11-26', toDay: null }, {}],
    ['of a signal that it is not made of', {}, { limit: 'cartridge dP' }],
    ['of a pressure where another one counts', {}, { basis: { scheme: 'dead-end', tmpFrom: 'measured' } }],
    ['where it has no days', {}, { firstDay: null, lastDay: null }],
  ] as const)('is silent of a doubt %s', (_, about, other) => expect(doubtsOfOutlook([{ ...doubt, ...about }], { ...outlook, ...other })).toEqual([]));
});
