import { describe, expect, test } from '@jest/globals';
import { type PartsAhead, type PartsOfWork, partsReady } from './parts-ready.js';

const NOTHING: PartsAhead = { there: [], reserved: [], coming: [], known: new Set(['seal', 'belt']) };
const work = (key: string, more: Partial<PartsOfWork> = {}): PartsOfWork => ({
  key,
  siteId: 'alder',
  jobId: null,
  wantedOn: null,
  parts: [{ itemId: 'seal', name: 'S-1 Seal', quantity: 2 }],
  ...more,
});
const at = (quantity: number, siteId: string | null = null) => ({ itemId: 'seal', siteId, van: null, quantity });
const [ada, bo] = [
  { personId: 'ada', name: 'Ada' },
  { personId: 'bo', name: 'Bo' },
];
const inVan = (van: typeof ada, quantity: number, itemId = 'seal') => ({ itemId, siteId: null, van, quantity });
// A Thursday.
const TODAY = '2026-11-26';
const asObject = (asked: readonly PartsOfWork[], ahead: Partial<PartsAhead>, today = TODAY) =>
  Object.fromEntries(partsReady(asked, { ...NOTHING, ...ahead }, today));

describe('the day from which on work has its parts', () => {
  test('is now where they lie in a store or at the site itself, not at another site', () => {
    expect(asObject([work('a')], { there: [at(1), at(1, 'alder')] })).toEqual({ a: { kind: 'there' } });
    expect(asObject([work('a')], { there: [at(1), at(1, 'birch')] })).toEqual({ a: { kind: 'missing', parts: '1 × S-1 Seal' } });
  });

  test('is when the last of them comes; what comes without a day is not counted', () => {
    const coming = [
      { ...at(1), day: '2026-12-04' },
      { ...at(1), day: '2026-12-01' },
    ];
    expect(asObject([work('a')], { coming })).toEqual({ a: { kind: 'from', day: '2026-12-04', vans: [] } });
    expect(asObject([work('a')], { coming: [{ ...at(5), day: null }] })).toEqual({ a: { kind: 'missing', parts: '2 × S-1 Seal' } });
  });

  test('what is wanted first takes first, and what is not whole takes nothing', () => {
    const both = [
      work('late', { wantedOn: '2026-12-20' }),
      work('soon', { wantedOn: '2026-12-01' }),
      work('whole', { parts: [{ itemId: 'seal', name: 'S-1 Seal', quantity: 1 }] }),
    ];
    expect(asObject(both, { there: [at(3)] })).toEqual({
      soon: { kind: 'there' },
      late: { kind: 'missing', parts: '1 × S-1 Seal' },
      whole: { kind: 'there' },
    });
  });

  test('what is reserved for other work is not there; what is reserved for the job itself is', () => {
    const reserved = [{ ...at(2), jobId: 'job 1' }];
    expect(asObject([work('a', { jobId: 'job 1' }), work('b')], { there: [at(2)], reserved })).toEqual({
      a: { kind: 'there' },
      b: { kind: 'missing', parts: '2 × S-1 Seal' },
    });
  });

  test('no work waits for what the ledger never knew', () => {
    expect(asObject([work('a', { parts: [{ itemId: 'rag', name: 'R-1 Rags', quantity: 1 }] })], {})).toEqual({ a: { kind: 'there' } });
  });

  describe('where they lie in a van', () => {
    test('is now for its person, and for others the next working day', () => {
      const there = [inVan(ada, 2)];
      expect(asObject([work('a')], { there })).toEqual({ a: { kind: 'from', day: '2026-11-27', vans: [{ ...ada, fromOn: null }] } });
      expect(asObject([work('a')], { there }, '2026-11-27')).toEqual({ a: { kind: 'from', day: '2026-11-30', vans: [{ ...ada, fromOn: null }] } });
    });

    test('is after a hand-over for everybody where no van holds all of them', () => {
      expect(asObject([work('a')], { there: [inVan(ada, 1), inVan(bo, 1)] })).toEqual({
        a: {
          kind: 'from',
          day: '2026-11-27',
          vans: [
            { ...ada, fromOn: '2026-11-27' },
            { ...bo, fromOn: '2026-11-27' },
          ],
        },
      });
    });

    test('takes from the store first, then from the van that holds the most of all parts', () => {
      const both = work('a', {
        parts: [
          { itemId: 'seal', name: 'S-1 Seal', quantity: 2 },
          { itemId: 'belt', name: 'B-1 Belt', quantity: 1 },
        ],
      });
      const ofAda = { kind: 'from', day: '2026-11-27', vans: [{ ...ada, fromOn: null }] };
      expect(asObject([both], { there: [inVan(bo, 9), inVan(ada, 2), inVan(ada, 1, 'belt')] })).toEqual({ a: ofAda });
      expect(asObject([both, work('b')], { there: [inVan(ada, 2), inVan(ada, 1, 'belt'), at(2)] })).toEqual({ a: ofAda, b: ofAda });
      expect(asObject([work('b')], { there: [inVan(ada, 2), at(2)] })).toEqual({ b: { kind: 'there' } });
    });

    test('is no sooner for anybody than what comes; what comes into a van is handed over afterwards', () => {
      const there = [inVan(ada, 1)];
      expect(asObject([work('a')], { there, coming: [{ ...at(1), day: '2026-12-02' }] })).toEqual({
        a: { kind: 'from', day: '2026-12-02', vans: [{ ...ada, fromOn: '2026-12-02' }] },
      });
      expect(asObject([work('a')], { there, coming: [{ ...inVan(ada, 1), day: '2026-12-02' }] })).toEqual({
        a: { kind: 'from', day: '2026-12-03', vans: [{ ...ada, fromOn: '2026-12-02' }] },
      });
    });

    test('counts what the job reserved there, and nothing that others did', () => {
      const reserved = [{ ...inVan(ada, 2), jobId: 'job 1' }];
      expect(asObject([work('a', { jobId: 'job 1' }), work('b')], { there: [inVan(ada, 2), inVan(bo, 2)], reserved })).toEqual({
        a: { kind: 'from', day: '2026-11-27', vans: [{ ...ada, fromOn: null }] },
        b: { kind: 'from', day: '2026-11-27', vans: [{ ...bo, fromOn: null }] },
      });
    });
  });
});
