import { median } from 'd3-array';

/** What one finished job says of one task: its minutes, and the parts used where the job had no other task. */
export interface ActualWork {
  readonly minutes: number | null;
  /** By item; `null` where the job had several tasks, so that nobody can say which of them used what */
  readonly parts: Readonly<Record<string, number>> | null;
}

export interface AskedPart {
  readonly itemId: string;
  readonly quantity: number;
}

export interface PartFinding {
  readonly itemId: string;
  readonly what: 'asked but seldom used' | 'used but not asked' | 'another quantity';
  readonly asked: number | null;
  /** Median of the jobs that used it */
  readonly used: number | null;
  readonly usedIn: number;
  readonly jobs: number;
}

type Findings<T> = { readonly kind: 'too-little-data'; readonly have: number; readonly need: number } | T;

export interface SheetFindings {
  readonly minutes: Findings<{ readonly kind: 'minutes'; readonly median: number; readonly low: number; readonly high: number; readonly jobs: number }>;
  readonly parts: Findings<{ readonly kind: 'parts'; readonly jobs: number; readonly findings: readonly PartFinding[] }>;
}

/** Fewer jobs say nothing yet. */
const LEAST_JOBS = 3;
/** In fewer than this share of the jobs a part counts as seldom used, in at least this share as needed. */
const HALF = 0.5;

/**
 * What finished work says against a task sheet: the usual minutes as the median with its range, parts that are asked for but used in less than half of the jobs, parts that half
 * of the jobs or more used although the sheet does not ask for them, and other quantities (median of the jobs that used the part). From three jobs on. A suggestion: it is
 * for a person to take or leave.
 *
 * Source: own definition.
 *
 * @example actualWork([{ minutes: 50, parts: {} }, { minutes: 70, parts: {} }], []).minutes // => { "kind": "too-little-data", "have": 2, "need": 3 }
 * @example actualWork([{ minutes: 50, parts: null }, { minutes: 70, parts: null }, { minutes: 60, parts: null }], []).minutes // => { "kind": "minutes", "median": 60, "low": 50, "high": 70, "jobs": 3 }
 */
export function actualWork(jobs: readonly ActualWork[], asked: readonly AskedPart[]): SheetFindings {
  const minutes = jobs.flatMap((job) => (job.minutes === null ? [] : [job.minutes])).sort((a, b) => a - b);
  const used = jobs.flatMap(({ parts }) => (parts === null ? [] : [parts]));
  return {
    minutes:
      minutes.length < LEAST_JOBS
        ? { kind: 'too-little-data', have: minutes.length, need: LEAST_JOBS }
        : { kind: 'minutes', median: median(minutes) ?? 0, low: minutes[0] ?? 0, high: minutes.at(-1) ?? 0, jobs: minutes.length },
    parts:
      used.length < LEAST_JOBS
        ? { kind: 'too-little-data', have: used.length, need: LEAST_JOBS }
        : { kind: 'parts', jobs: used.length, findings: partFindings(used, asked) },
  };
}

function partFindings(used: readonly Readonly<Record<string, number>>[], asked: readonly AskedPart[]): PartFinding[] {
  const itemIds = [...new Set([...asked.map(({ itemId }) => itemId), ...used.flatMap((parts) => Object.keys(parts))])];
  return itemIds.flatMap((itemId): PartFinding[] => {
    const quantities = used.flatMap((parts) => (parts[itemId] === undefined || parts[itemId] === 0 ? [] : [parts[itemId]]));
    const wanted = asked.find((part) => part.itemId === itemId)?.quantity ?? null;
    const usual = median(quantities) ?? null;
    const about = { itemId, asked: wanted, used: usual, usedIn: quantities.length, jobs: used.length };
    const share = quantities.length / used.length;
    if (wanted === null) return share >= HALF ? [{ ...about, what: 'used but not asked' }] : [];
    if (share < HALF) return [{ ...about, what: 'asked but seldom used' }];
    return usual === wanted ? [] : [{ ...about, what: 'another quantity' }];
  });
}
