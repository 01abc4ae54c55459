import type { OutlookRecord, PastOutlook, RecordBucket } from '../types.js';

const ENDS: readonly (number | null)[] = [14, 30, 50, 75, 110, null];
/** What is thought before anything was compared, and how many outlooks outweigh it: those of one part, week after week, err alike. */
const SPREAD_BEFOREHAND = 0.35;
const OUTLOOKS_OF_PRIOR = 40;
const SAME_WATER = 0.35;
const OTHER_WATER = 0.25;
const WEEKS_OF_PRIOR = 26;
const Z_90 = 1.2816;

/**
 * Learns how far outlooks lie from what comes, from past ones: u = ln(lasted / stated P50), its median (bias) and spread by bucket of P50, and how errors of one
 * week go together on the same water and on different ones.
 * Where early changes lie farther out than late ones (a storm), theirs is the spread: it is what empties a shelf. Parts that still run, or were changed early, are counted as lasting longer than they did so far
 * (Kaplan and Meier), else what is quick would be all that is seen.
 */
export function learnRecord(past: readonly PastOutlook[]): OutlookRecord {
  const usable = past.filter(({ p50Days, lastedDays }) => p50Days > 0 && lastedDays > 0);
  const buckets = ENDS.map((upToDays, at): RecordBucket => {
    const of = usable.filter(({ p50Days }) => p50Days > (ENDS[at - 1] ?? 0) && (upToDays === null || p50Days <= upToDays));
    const weight = of.length / (of.length + OUTLOOKS_OF_PRIOR);
    const [q10, q50, q90] = quantilesOf(of);
    const spread =
      q10 === null || q50 === null ? SPREAD_BEFOREHAND : q90 === null ? (q50 - q10) / Z_90 : Math.max((q90 - q10) / (2 * Z_90), (q50 - q10) / Z_90);
    return {
      upToDays,
      bias: weight * (q50 ?? 0),
      spread: Math.max(0.02, weight * spread + (1 - weight) * SPREAD_BEFOREHAND),
      n: of.length,
    };
  });
  const [, lasted] = quantilesOf(usable);
  return { buckets, ...correlations(usable, buckets), n: usable.length, lasted: Math.exp(lasted ?? 0) - 1 };
}

/** The bucket of a stated P50. */
export function bucketOf(buckets: readonly RecordBucket[], p50Days: number): RecordBucket | undefined {
  return buckets.find(({ upToDays }) => upToDays === null || p50Days <= upToDays);
}

/** Of u, at a tenth, a half and nine tenths; null where too few have met their limit to tell. */
function quantilesOf(past: readonly PastOutlook[]): [number | null, number | null, number | null] {
  const sorted = past
    .map(({ lastedDays, p50Days, met }) => ({ u: Math.log(lastedDays / p50Days), met }))
    .sort((a, b) => a.u - b.u || Number(b.met) - Number(a.met));
  const found: [number | null, number | null, number | null] = [null, null, null];
  let alive = 1;
  for (const [at, { u, met }] of sorted.entries()) {
    if (!met) continue;
    alive *= 1 - 1 / (sorted.length - at);
    for (const [which, share] of [0.1, 0.5, 0.9].entries()) if (found[which] === null && 1 - alive >= share - 1e-9) found[which] = u;
  }
  return found;
}

function correlations(past: readonly PastOutlook[], buckets: readonly RecordBucket[]): { readonly sameWater: number; readonly otherWater: number } {
  const weeks = new Map<number, Map<string, { sum: number; squares: number; count: number }>>();
  for (const { met, p50Days, lastedDays, water, week } of past) {
    const bucket = bucketOf(buckets, p50Days);
    if (!met || water === null || bucket === undefined) continue;
    const z = Math.max(-3, Math.min(3, (Math.log(lastedDays / p50Days) - bucket.bias) / bucket.spread));
    const waters = weeks.get(week) ?? new Map<string, { sum: number; squares: number; count: number }>();
    const all = waters.get(water) ?? { sum: 0, squares: 0, count: 0 };
    waters.set(water, { sum: all.sum + z, squares: all.squares + z * z, count: all.count + 1 });
    weeks.set(week, waters);
  }
  let [same, samePairs, other, otherPairs] = [0, 0, 0, 0];
  for (const waters of weeks.values()) {
    let [sum, count, squared, pairs] = [0, 0, 0, 0];
    for (const one of waters.values()) {
      same += one.sum ** 2 - one.squares;
      samePairs += one.count * (one.count - 1);
      sum += one.sum;
      count += one.count;
      squared += one.sum ** 2;
      pairs += one.count ** 2;
    }
    other += sum ** 2 - squared;
    otherPairs += count ** 2 - pairs;
  }
  const weight = weeks.size / (weeks.size + WEEKS_OF_PRIOR);
  const drawn = (sum: number, pairs: number, beforehand: number) => (pairs === 0 ? beforehand : weight * (sum / pairs) + (1 - weight) * beforehand);
  const sameWater = Math.max(0, Math.min(0.9, drawn(same, samePairs, SAME_WATER)));
  return { sameWater, otherWater: Math.max(0, Math.min(sameWater, drawn(other, otherPairs, OTHER_WATER))) };
}
