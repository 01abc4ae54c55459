import { describe, expect, test } from '@jest/globals';
import { deviation, mean, median } from 'd3-array';
import { cartridgeOutlook } from '../../src/outlook/core/cartridge-outlook.js';
import { dayPlus, daysBetween } from '../../src/shared/day.js';
import { type CloggingLife, dustRig, plantCartridges, waterRig } from './clogging-records.js';
import { haveOpenData } from './open-data.js';

/** Error of the remaining days as a share of the true ones. */
interface Score {
  readonly ours: number;
  readonly line: number;
  readonly inSpan: boolean;
}

function scoreAt(life: CloggingLife, share: number): Score {
  const start = life.points[0]?.day ?? '';
  const origin = dayPlus(start, Math.floor(share * life.lifeDays));
  const points = life.points.filter(({ day }) => day <= origin);
  const steps = points.slice(1).map((point, i) => (point.loadM3 - (points[i]?.loadM3 ?? 0)) / daysBetween(points[i]?.day ?? '', point.day));
  const recent = steps.slice(-Math.ceil(steps.length / 5));
  const outlook = cartridgeOutlook({
    points,
    limitKpa: life.limit,
    earlierLives: life.earlierLives,
    dailyLoad: { meanM3: mean(recent) ?? 0, sdM3: deviation(recent) ?? 0, days: recent.length },
    origin: new Date(`${origin}T00:00:00Z`),
    timeZone: 'UTC',
  });
  const truth = life.lifeDays - daysBetween(start, origin);
  // No answer, or one beyond two years, counts as entirely wrong.
  const [low, middle, high] = outlook.kind === 'outlook' ? [outlook.p10Days ?? Infinity, outlook.p50Days ?? Infinity, outlook.p90Days ?? Infinity] : [0, 0, 0];
  return {
    ours: Math.min(10, Math.abs(middle - truth) / truth),
    line: Math.abs(Math.max(0, lineDays(points, life.limit)) - truth) / truth,
    inSpan: low <= truth && truth <= high,
  };
}

/** Days until a least-squares line through all points meets the limit. */
function lineDays(points: CloggingLife['points'], limit: number): number {
  const x = points.map(({ day }) => daysBetween(points[0]?.day ?? '', day));
  const [mx, my] = [mean(x) ?? 0, mean(points, ({ dpKpa }) => dpKpa) ?? 0];
  const slope = points.reduce((sum, { dpKpa }, i) => sum + ((x[i] ?? 0) - mx) * (dpKpa - my), 0) / x.reduce((sum, value) => sum + (value - mx) ** 2, 0);
  return slope > 0 ? mx + (limit - my) / slope - (x.at(-1) ?? 0) : Infinity;
}

const SETS = [
  ['reuse plant, cartridges (6 cases)', plantCartridges, ['reuse_plant_ro/cartridge_dp_daily.csv'], [0.3, 0.5, 0.7, 0.85]],
  ['water rig (24 runs)', waterRig, ['clogging_water_phme20/runs.csv', 'clogging_water_phme20/series_1hz.csv'], [0.3, 0.5, 0.7, 0.9]],
  ['dust rig (60 runs)', dustRig, ['clogging_dust_esrel22/runs.csv', 'clogging_dust_esrel22/series_1hz.csv'], [0.3, 0.5, 0.7, 0.9]],
] as const;

describe('the outlook of cartridges on open clogging records, each life forecast from the others', () => {
  for (const [name, lives, files, shares] of SETS) {
    const run = haveOpenData(...files) ? test : test.skip;
    run(`is far nearer than a straight line: ${name}`, () => {
      const records = lives();
      for (const share of shares) {
        const scores = records.map((life) => scoreAt(life, share));
        const [ours, line] = [median(scores, ({ ours }) => ours) ?? NaN, median(scores, ({ line }) => line) ?? NaN];
        const covered = mean(scores, ({ inSpan }) => Number(inSpan)) ?? NaN;
        console.info(
          `${name} at ${share * 100} % of life: median error ${(100 * ours).toFixed(1)} %, line ${(100 * line).toFixed(0)} %, in the span ${(100 * covered).toFixed(0)} %`,
        );
        expect(ours).toBeLessThan(line / 2);
      }
    });
  }
});
