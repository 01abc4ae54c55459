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
const at = (quantity: number, siteId: string | null = null) => ({ itemId: 'seal', siteId, quantity });
const asObject = (asked: readonly PartsOfWork[], ahead: Partial<PartsAhead>) => Object.fromEntries(partsReady(asked, { ...NOTHING, ...ahead }));

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
    expect(asObject([work('a')], { coming })).toEqual({ a: { kind: 'from', day: '2026-12-04' } });
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
});
