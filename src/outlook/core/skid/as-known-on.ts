import { baselines } from '../../../condition/core/baseline.js';
import { recentLoad } from '../../../condition/core/recent-load.js';
import type { Day } from '../../../shared/day.js';
import type { KnownOfSkid, OutlookDay, OutlookFacts, SetFitted } from './known-of-skid.js';

/** The record of a skid: its days, its recovery cleans and its cartridge sets, each in order. */
export interface RecordOfSkid {
  readonly days: readonly OutlookDay[];
  readonly cleans: readonly Day[];
  readonly sets: readonly SetFitted[];
}

/** What was known of a skid at the end of a day of its past: nothing that was read, cleaned, fitted or removed after it, and the baselines and the mean load as they were then. */
export function asKnownOn(origin: Day, facts: OutlookFacts, record: RecordOfSkid): { readonly known: KnownOfSkid } & RecordOfSkid {
  const days = record.days.filter(({ day }) => day <= origin);
  const cleans = record.cleans.filter((day) => day <= origin);
  const sets = record.sets.flatMap((set) =>
    set.fittedOn > origin ? [] : [{ ...set, removedOn: set.removedOn !== null && set.removedOn <= origin ? set.removedOn : null }],
  );
  const commissioning = facts.baselines?.commissioning;
  const measured = commissioning?.kind === 'baseline' && !commissioning.assumed ? commissioning : null;
  const load = recentLoad(days);
  const known: KnownOfSkid = {
    ...facts,
    doubts: [],
    dailyLoadM3: load.kind === 'recent-load' ? load.meanM3 : null,
    dailyLoadSd: load.kind === 'recent-load' ? load.sdM3 : null,
    baselines: baselines({
      days: days.map(({ day, permeability }) => ({
        day,
        permeability: permeability === null ? null : { median: permeability, low: permeability, high: permeability, n: 1 },
      })),
      cleans: cleans.map((day) => ({ kind: 'CIP' as const, day })),
      commissioning: measured,
      referenceC: measured?.referenceC ?? 20,
    }),
  };
  return { known, days, cleans, sets };
}
