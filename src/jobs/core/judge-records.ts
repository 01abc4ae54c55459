import type { ReportProblem } from './judge-report.js';

interface Moment {
  readonly at?: string | null;
}

export interface RecordsToJudge {
  readonly startedAt: string;
  readonly finishedAt: string;
  readonly partsFitted: readonly (Moment & { readonly serialNumber?: string | null; readonly setCount: number })[];
  readonly partsRemoved: readonly Moment[];
  readonly integrityTests: readonly Moment[];
  readonly fibreRepairs: readonly Moment[];
  readonly calibrations: readonly Moment[];
  readonly meters: readonly { readonly meterId: string }[];
}

/** The clocks of two devices differ a little. */
const CLOCK_TOLERANCE_MS = 5 * 60_000;
const TIMED = ['partsFitted', 'partsRemoved', 'integrityTests', 'fibreRepairs', 'calibrations'] as const;

/**
 * What the records of a report contradict each other in: a part that was fitted before the work began or after it ended, a set under one serial number, a meter that is
 * read twice at the same end.
 *
 * Source: common practice.
 *
 * @example judgeRecords({ startedAt: '2026-11-25T08:00:00Z', finishedAt: '2026-11-25T09:00:00Z', partsFitted: [], partsRemoved: [], integrityTests: [], fibreRepairs: [], calibrations: [], meters: [] }) // => []
 */
export function judgeRecords(report: RecordsToJudge): ReportProblem[] {
  return [...TIMED.flatMap((list) => ofMoments(list, report)), ...ofSets(report), ...ofDoubles(report)];
}

function ofMoments(list: (typeof TIMED)[number], report: RecordsToJudge): ReportProblem[] {
  const from = new Date(report.startedAt).getTime() - CLOCK_TOLERANCE_MS;
  const to = new Date(report.finishedAt).getTime() + CLOCK_TOLERANCE_MS;
  return report[list].flatMap(({ at }, index) => {
    const moment = at == null ? null : new Date(at).getTime();
    if (moment === null || (moment >= from && moment <= to)) return [];
    return [{ pointer: `#/${list}/${index}/at`, message: `${at} is not within the work, ${report.startedAt} to ${report.finishedAt}` }];
  });
}

const ofSets = ({ partsFitted }: RecordsToJudge): ReportProblem[] =>
  partsFitted.flatMap(({ serialNumber, setCount }, index) =>
    serialNumber == null || setCount === 1
      ? []
      : [{ pointer: `#/partsFitted/${index}/setCount`, message: `a serial number is of one piece, not of ${setCount}: leave one of the two out` }],
  );

const ofDoubles = ({ meters }: RecordsToJudge): ReportProblem[] =>
  meters.flatMap(({ meterId }, index) =>
    meters.findIndex((other) => other.meterId === meterId) === index
      ? []
      : [{ pointer: `#/meters/${index}/meterId`, message: 'this meter is read twice in the sheet: keep the reading that holds' }],
  );
