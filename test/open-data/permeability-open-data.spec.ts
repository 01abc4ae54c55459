import { describe, expect, test } from '@jest/globals';
import { mean, median } from 'd3-array';
import { EPOCH } from '../../src/outlook/core/permeability/level-runs.js';
import { membraneOutlook } from '../../src/outlook/core/permeability/membrane-outlook.js';
import { dayPlus, daysBetween } from '../../src/shared/day.js';
import { haveOpenData, readOpenData } from './open-data.js';

const FILE = 'reuse_plant_ro/units_daily.csv';
const SETTLED_AFTER_DAYS = 5;
const LEAST_HISTORY_DAYS = 60;

interface DayValue {
  readonly day: string;
  readonly value: number;
}

/** Specific flux of each reverse-osmosis unit between cleans, from five days after the clean: the nearest open record to a permeability between recovery cleans. */
function runsBetweenCleans(): { readonly unit: string; readonly days: readonly DayValue[] }[] {
  const runs: { unit: string; days: DayValue[] }[] = [];
  let cleanedOn = '';
  for (const { unit = '', date = '', cip, area_weighted_specific_flux: flux } of readOpenData(FILE)) {
    if (runs.at(-1)?.unit !== unit || Number(cip) > 0) {
      runs.push({ unit, days: [] });
      cleanedOn = date;
    }
    if (flux !== '' && daysBetween(cleanedOn, date) >= SETTLED_AFTER_DAYS) runs.at(-1)?.days.push({ day: date, value: Number(flux) });
  }
  return runs;
}

const near = (days: readonly DayValue[], day: string, reach: number) =>
  days.filter((other) => Math.abs(daysBetween(other.day, day)) <= reach).map(({ value }) => value);

describe('the outlook of a permeability on an open plant record', () => {
  (haveOpenData(FILE) ? test : test.skip)('is nearer to the value of one and two months later than to say that nothing changes', () => {
    for (const ahead of [30, 60]) {
      const scores: { ours: number; same: number; inBand: number }[] = [];
      for (const { unit, days } of runsBetweenCleans()) {
        for (let i = LEAST_HISTORY_DAYS; i < days.length; i += 7) {
          const known = days.slice(0, i + 1);
          const origin = known.at(-1)?.day ?? '';
          const truth = median(near(days.slice(i + 1), dayPlus(origin, ahead), 2));
          if (truth === undefined) continue;
          const level = median(known.slice(-7), ({ value }) => value) ?? NaN;
          const outlook = membraneOutlook({
            run: { unit, points: known.map(({ day, value }) => ({ dayNo: daysBetween(EPOCH, day), clock: daysBetween(days[0]?.day ?? '', day), value })) },
            limitLmhBar: 0.5 * level,
            dailyLoad: { meanM3PerM2: 1, days: 60 },
            own: [],
            fleet: null,
            origin: new Date(`${origin}T00:00:00Z`),
            timeZone: 'UTC',
          });
          if (outlook.kind !== 'outlook') continue; // a gap in the record
          const [before, after] = [outlook.path.findLast(({ dayAhead }) => dayAhead <= ahead), outlook.path.find(({ dayAhead }) => dayAhead >= ahead)];
          const share = before && after && after.dayAhead > before.dayAhead ? (ahead - before.dayAhead) / (after.dayAhead - before.dayAhead) : 0;
          const at = (end: 'low' | 'mid' | 'high') => (before?.[end] ?? NaN) + share * ((after?.[end] ?? NaN) - (before?.[end] ?? NaN));
          scores.push({ ours: Math.abs(at('mid') / truth - 1), same: Math.abs(level / truth - 1), inBand: Number(at('low') <= truth && truth <= at('high')) });
        }
      }
      const [ours, same, inBand] = [median(scores, (s) => s.ours) ?? NaN, median(scores, (s) => s.same) ?? NaN, mean(scores, (s) => s.inBand) ?? NaN];
      console.info(
        `specific flux ${ahead} days ahead, ${scores.length} origins: median error ${(100 * ours).toFixed(2)} %, no change ${(100 * same).toFixed(2)} %, in the band ${(100 * inBand).toFixed(0)} %`,
      );
      expect(ours).toBeLessThan(0.85 * same);
      expect(inBand).toBeGreaterThan(0.6);
    }
  });
});
