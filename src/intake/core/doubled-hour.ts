/** A time that the clock on the wall showed twice. */
export interface DoubledTime {
  readonly firstMs: number;
  readonly secondMs: number;
}

export type DoubledHour = { readonly kind: 'resolved'; readonly atMs: readonly number[] } | { readonly kind: 'doubtful'; readonly atMs: readonly number[] };

/** Rows run on where no gap is longer than this many steps. */
const LONGEST_STEP = 1.5;

/**
 * Which of its two meanings each time of one run of rows in the doubled hour (end of summer time) has, judged by the order of the rows.
 * The rows before some row are taken as the first pass of the hour, the rest as the second. The place of the change is that at which the rows run on
 * with the fewest jumps, seen together with the last row before and the first row after. Rows run on where the gap is at most one and a half steps;
 * the step is the usual one just before, else the median of the run.
 *
 * A log with the newest row first is read from its end.
 *
 * Where two places are equally good (an hour was logged once, with a neighbour on either side) or none keeps the rows in order, the times stay doubtful
 * and stand with their first meaning.
 */
export function resolveDoubledHour(
  run: readonly DoubledTime[],
  beforeMs: number | undefined,
  usualStepMs: number | undefined,
  afterMs: number | undefined,
): DoubledHour {
  if (isNewestFirst(run, beforeMs, afterMs)) {
    const backwards = resolveDoubledHour([...run].reverse(), afterMs, usualStepMs, beforeMs);
    return { kind: backwards.kind, atMs: [...backwards.atMs].reverse() };
  }
  const firstMeanings = run.map(({ firstMs }) => firstMs);
  const stepMs = usualStepMs ?? medianStep(firstMeanings);
  if (stepMs === undefined) return { kind: 'doubtful', atMs: firstMeanings };
  let best: { atMs: number[]; jumps: number } | undefined;
  let tied = false;
  for (const change of changesPossible(firstMeanings)) {
    const atMs = run.map((time, row) => (row < change ? time.firstMs : time.secondMs));
    const jumps = countJumps([beforeMs, ...atMs, afterMs], stepMs);
    if (jumps === undefined) continue;
    if (best === undefined || jumps < best.jumps) {
      best = { atMs, jumps };
      tied = false;
    } else if (jumps === best.jumps) tied = true;
  }
  return best === undefined || tied ? { kind: 'doubtful', atMs: firstMeanings } : { kind: 'resolved', atMs: best.atMs };
}

function isNewestFirst(run: readonly DoubledTime[], beforeMs: number | undefined, afterMs: number | undefined): boolean {
  if (beforeMs === undefined && afterMs === undefined) return false;
  return (beforeMs ?? run[0]?.firstMs ?? 0) > (afterMs ?? run.at(-1)?.firstMs ?? 0);
}

/** All rows in the first pass, all in the second, or a change where the clock does not go forward. */
function changesPossible(wall: readonly number[]): number[] {
  return [...wall.keys(), wall.length].filter((row) => row === 0 || row === wall.length || (wall[row] as number) <= (wall[row - 1] as number));
}

/** Undefined: out of order. The ends are unknown at the bounds of a file, and no jump. */
function countJumps(times: readonly (number | undefined)[], stepMs: number): number | undefined {
  let jumps = 0;
  for (let i = 1; i < times.length; i++) {
    const [earlier, later] = [times[i - 1], times[i]];
    if (earlier === undefined || later === undefined) continue;
    if (later < earlier) return undefined;
    if (later - earlier > LONGEST_STEP * stepMs) jumps += 1;
  }
  return jumps;
}

function medianStep(times: readonly number[]): number | undefined {
  const steps = times.slice(1).map((time, i) => time - (times[i] as number));
  const forward = steps.filter((step) => step > 0).sort((a, b) => a - b);
  return forward[Math.floor(forward.length / 2)];
}
