import { dayPlus, daysBetween } from '../../../shared/day.js';
import { cleanInWords } from '../next-clean/clean-in-words.js';
import { nextClean } from '../next-clean/next-clean.js';
import type { Outlook } from '../outlook.js';
import { LEVEL_HORIZONS } from '../permeability/level-law.js';
import { EPOCH } from '../permeability/level-runs.js';
import { membraneOutlook } from '../permeability/membrane-outlook.js';
import { lessonsOf } from '../permeability/past-changes.js';
import type { StretchFor } from '../record/calibration.js';
import type { KnownOfSkid, OutlookDay } from './known-of-skid.js';
import { cleanRunsOf, type LearnedMembranes, type MembraneRecord, runsOf } from './learned-membranes.js';
import type { RecordOfLimit } from './odd-record.js';

/** Of a skid's own weeks the latest are learned from; older ones were of another water. */
const OWN_DAYS = 210;

/** The outlook of the membranes of a skid and its limit; `null` where nothing is known of what they give when clean, or of their area. */
export function membranesOfSkid(
  facts: KnownOfSkid,
  {
    origin,
    days,
    cleans,
    loadDays,
  }: { readonly origin: Date; readonly days: readonly OutlookDay[]; readonly cleans: readonly string[]; readonly loadDays: number },
  { membranes, stretchFor }: { readonly membranes: LearnedMembranes | null; readonly stretchFor: StretchFor },
): {
  readonly outlook: Outlook;
  readonly limitLmhBar: number;
  readonly nextClean: string | null;
  readonly record: Pick<RecordOfLimit, 'values' | 'filtrate'>;
} | null {
  const baseline = facts.baselines?.lastCip;
  const { areaM2, timeZone, membraneChanges = [], skidId: unit = '' } = facts;
  if (baseline?.kind !== 'baseline' || areaM2 === null) return null;
  const limitLmhBar = baseline.permeabilityLmhBar * facts.permeabilityLimitFraction;
  const lastDay = days.at(-1)?.day;
  const lastClean = cleans.at(-1) ?? '';
  const since = days.filter(({ day }) => day > lastClean);
  const ownFrom = lastDay === undefined ? '' : dayPlus(lastDay, -OWN_DAYS);
  const recent = days.filter(({ day }) => day > ownFrom || day > lastClean);
  const runs = runsOf({ unit, days: recent, cleans, changes: membraneChanges, areaM2 });
  const run = runs.at(-1) ?? { unit, points: [] };
  const outlook = membraneOutlook({
    run,
    limitLmhBar,
    dailyLoad: { meanM3PerM2: (facts.dailyLoadM3 ?? 0) / areaM2, days: loadDays },
    own: lessonsOf(runs, LEVEL_HORIZONS),
    fleet: membranes,
    origin,
    timeZone,
    stretchFor,
  });
  const record = {
    values: since.flatMap(({ day, permeability }) => (permeability === null ? [] : [{ day, value: permeability }])),
    filtrate: since.map(({ day, filtrateM3 }) => ({ day, m3: filtrateM3 })),
  };
  return {
    outlook,
    limitLmhBar,
    record,
    nextClean: outlook.kind === 'limit-met' ? null : nextCleanOf({ unit, days, cleans, changes: [], areaM2 }, outlook.originDay, membranes),
  };
}

function nextCleanOf(record: MembraneRecord, originDay: string, membranes: LearnedMembranes | null): string | null {
  if (membranes === null) return null;
  const run = cleanRunsOf(record).at(-1);
  const said = run === undefined ? null : nextClean(membranes.habit, run, daysBetween(EPOCH, originDay));
  return said === null ? null : cleanInWords(said, originDay);
}
