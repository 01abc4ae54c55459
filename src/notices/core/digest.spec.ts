import { describe, expect, test } from '@jest/globals';
import { clientDigest, managerDigest, storeDigest, technicianDigest } from './digest.js';
import { letter, oneLine } from './letter.js';

const TODAY = '2026-11-25';
const NOTHING = { overdue: 0, due: 0, dues: [], breakdowns: [], visits: [], reports: [], answers: [] };
const due = { skidName: 'A', siteName: 'S', task: 'Oil', standing: 'due', bestOn: '2027-01-05', latestOn: null, reason: 'because' } as const;
const skid = { skidName: 'A', siteName: 'S', serviceState: 'in service', standing: 'steady', task: null } as const;

describe('a digest', () => {
  test('with nothing to tell is none', () => {
    expect(managerDigest(NOTHING, TODAY)).toBeNull();
    expect(storeDigest([], [], TODAY)).toBeNull();
    expect(technicianDigest([], 'T', TODAY)).toBeNull();
    expect(clientDigest({ visits: [], finished: [], skids: [skid], supply: [] }, 'daily', TODAY)).toBeNull();
    expect(clientDigest({ visits: [], finished: [], skids: [], supply: [] }, 'weekly', TODAY)).toBeNull();
  });

  test('of a week tells a client how the skids are even when nothing happened', () => {
    const weekly = clientDigest({ visits: [], finished: [], skids: [skid, { ...skid, standing: 'no-data' }], supply: [] }, 'weekly', TODAY);
    expect(weekly?.sections).toEqual([
      { heading: 'Your skids', lines: ['A, S: in service, nothing is due', 'A, S: in service, no reading for too long to say how it is'] },
    ]);
  });

  test('of a day reminds a client of the tanks that they fill', () => {
    const supply = [{ tankName: 'Acid tank', skidName: 'A', siteName: 'S', asked: 'Please have about 150 L of citric acid in the tank by 30 Nov.' }];
    expect(clientDigest({ visits: [], finished: [], skids: [], supply }, 'daily', TODAY)?.sections).toEqual([
      { heading: 'Chemicals that you see to', lines: ['Acid tank, A, S: Please have about 150 L of citric acid in the tank by 30 Nov.'] },
    ]);
  });

  test('tells a manager what clients said to proposed days, and which would suit', () => {
    const asked = { visitNo: 7, onDay: '2026-12-01', startTime: '08:00', siteName: 'S', clientName: 'C', reason: '', answeredBy: 'Lea' } as const;
    const answers = [
      { ...asked, answer: 'confirmed', wishedDays: [] },
      { ...asked, answer: 'declined', reason: 'Shutdown', wishedDays: ['2026-12-03', '2027-01-04'] },
    ] as const;
    expect(managerDigest({ ...NOTHING, answers }, TODAY)?.sections).toEqual([
      {
        heading: '2 clients have answered a proposed day',
        lines: [
          'Visit 7, S (C), Tuesday 1 Dec, 08:00: suits (Lea), to be promised',
          'Visit 7, S (C), Tuesday 1 Dec, 08:00: does not suit (Lea): Shutdown; would suit: 3 Dec, 4 Jan 2027',
        ],
      },
    ]);
  });

  test('leaves out the sections that are empty, and says how many lines it does not show', () => {
    const digest = managerDigest({ ...NOTHING, overdue: 4, due: 3, dues: [due] }, TODAY);
    expect(digest?.sections).toEqual([{ heading: '4 tasks overdue, 3 due', lines: ['Due: Oil, A, S; best on 5 Jan 2027; because'], of: 7 }]);
    expect(letter('S', 'First.', digest?.sections ?? [], []).text).toContain('\n- and 6 more\n');
  });
});

test('a letter keeps what records say within their lines', () => {
  const { subject, text } = letter('A\r\nBcc: x', 'First.', [{ heading: 'H', lines: ['a\n\nFrom: b', ' c\u0000d '] }], ['Last.']);
  expect(subject).toBe('A Bcc: x');
  expect(text).toBe('First.\n\nH\n- a From: b\n- c d\n\nLast.\n');
  expect(oneLine('\t\n')).toBe('');
});
