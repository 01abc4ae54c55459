import { median } from 'd3-array';
import type { Day } from '../../../shared/day.js';
import { resistanceOf } from './resistance-of.js';

/** A day of the record as fouling needs it. Permeability at the reference temperature, L/m2 h bar. */
export interface FoulingDay {
  readonly day: Day;
  /** Just after the hydraulic clean */
  readonly startLmhBar: number | null;
  /** Median over the runs of the day */
  readonly meanLmhBar: number | null;
  /** Filtrate of the day per membrane area; null: not known */
  readonly loadM3PerM2: number | null;
}

export interface ChemicalClean {
  readonly kind: 'CEB' | 'CIP';
  readonly day: Day;
}

/**
 * Resistance of a day by what would take it away, 1/m. The parts add up to the whole; a part may be below zero where the membrane was cleaner than at its own baseline, by scatter
 * or by a better clean, and is left so. `null`: nothing was measured that tells it.
 */
export interface ResistanceParts {
  readonly day: Day;
  /** Of the new membrane */
  readonly clean: number;
  /** Left after the latest recovery clean */
  readonly irreversible: number | null;
  /** Left after the latest chemical clean of either kind, less what is irreversible: what a recovery clean would take */
  readonly cip: number | null;
  /** Grown since the latest chemical clean: what a maintenance clean would take */
  readonly ceb: number | null;
  /** Grown within the run: what the hydraulic clean takes */
  readonly hydraulic: number | null;
}

const AFTER_CLEAN_DAYS = 3;

/**
 * Splits the resistance of each day, from the start of runs, their mean, and what was left after each chemical clean (median of the first three days with a value after it, before the next
 * clean). Without a start of runs nothing is hydraulic and the mean stands in for the start. The end of a run is taken as far above its mean as its start lies below it: growth within a run
 * is nearly straight at constant flux (cake). Before the first recovery clean of the record nothing is known to be irreversible.
 *
 * Source: resistances in series; reversible and irreversible fouling as in the membrane literature (hydraulic, chemical), own arrangement by day.
 *
 * @example resistanceParts([{ day: '2026-01-02', startLmhBar: 200, meanLmhBar: 190, loadM3PerM2: 1 }], [], 250, 20)[0].irreversible // => null
 */
export function resistanceParts(days: readonly FoulingDay[], cleans: readonly ChemicalClean[], newLmhBar: number, referenceC: number): ResistanceParts[] {
  const clean = resistanceOf(newLmhBar, referenceC);
  const inOrder = [...cleans].sort((one, two) => (one.day < two.day ? -1 : 1));
  const levels = inOrder.map((one, at) => ({ ...one, left: levelAfter(days, one.day, inOrder[at + 1]?.day ?? null, referenceC) }));
  return days.flatMap(({ day, startLmhBar, meanLmhBar }) => {
    const start = startLmhBar ?? meanLmhBar;
    if (start === null) return [];
    const known = levels.filter((level) => level.day < day && level.left !== null);
    const afterAny = known.at(-1)?.left ?? null;
    const afterCip = known.findLast(({ kind }) => kind === 'CIP')?.left ?? null;
    const atStart = resistanceOf(start, referenceC);
    const irreversible = afterCip === null ? null : afterCip - clean;
    return [
      {
        day,
        clean,
        irreversible,
        cip: afterAny === null ? null : afterAny - (afterCip ?? clean),
        ceb: atStart - (afterAny ?? afterCip ?? clean),
        hydraulic: startLmhBar === null || meanLmhBar === null ? null : 2 * (resistanceOf(meanLmhBar, referenceC) - resistanceOf(startLmhBar, referenceC)),
      },
    ];
  });
}

function levelAfter(days: readonly FoulingDay[], after: Day, before: Day | null, referenceC: number): number | null {
  const values = days
    .filter(({ day }) => day > after && (before === null || day <= before))
    .flatMap(({ startLmhBar, meanLmhBar }) => startLmhBar ?? meanLmhBar ?? [])
    .slice(0, AFTER_CLEAN_DAYS);
  const level = median(values);
  return level === undefined ? null : resistanceOf(level, referenceC);
}
