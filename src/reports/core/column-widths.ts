/** What a column would like to have: the width of its longest word, and of its longest cell on one line. */
export interface ColumnWish {
  readonly least: number;
  readonly whole: number;
  readonly numeric: boolean;
}

/** A column of text may ask for this share of the paper at most before it is broken into lines. */
const LONGEST_WORD = 0.3;
/** More rest than this share of the paper in one column would tear its row apart. */
const TORN = 0.35;
const AIR = 24;

/**
 * Shares the width of the paper out among the columns of a table.
 *
 * Each gets its longest word; what is left goes to all alike, but to none more than its longest cell asks for, so that long texts are broken and short ones not.
 * Where there is more than enough, the widest column of text takes the rest, unless that
 * would tear the table apart: then every column gets some air, and the table stays narrower than the paper. Behaviour at the edges: longest words that are too wide together are pressed to fit, and cut when they are drawn.
 *
 * @example columnWidths([{ least: 20, whole: 40, numeric: true }, { least: 30, whole: 50, numeric: false }], 100) // => [40, 60]
 * @example columnWidths([{ least: 20, whole: 40, numeric: true }, { least: 30, whole: 50, numeric: false }], 300) // => [64, 74]
 * @example columnWidths([{ least: 20, whole: 40, numeric: true }, { least: 40, whole: 260, numeric: false }], 170) // => [40, 130]
 */
export function columnWidths(wishes: readonly ColumnWish[], width: number): number[] {
  const least = wishes.map((wish) => Math.min(wish.least, Math.max(wish.numeric ? wish.least : 0, width * LONGEST_WORD)));
  const extra = wishes.map((wish, at) => Math.max(0, wish.whole - (least[at] ?? 0)));
  const leastSum = sum(least);
  if (leastSum >= width) return least.map((each) => (each * width) / leastSum);
  const given = shareAlike(extra, width - leastSum);
  const rest = width - leastSum - sum(given);
  if (rest > width * TORN) return least.map((each, at) => each + (given[at] ?? 0) + AIR);
  const takesRest = restTaker(wishes);
  return least.map((each, at) => each + (given[at] ?? 0) + (at === takesRest ? rest : 0));
}

/** To all alike, but to none more than it asks for. */
function shareAlike(asked: readonly number[], toShare: number): number[] {
  const given = asked.map(() => 0);
  let left = toShare;
  [...asked.keys()]
    .sort((a, b) => (asked[a] ?? 0) - (asked[b] ?? 0))
    .forEach((at, done) => {
      given[at] = Math.min(asked[at] ?? 0, left / (asked.length - done));
      left -= given[at];
    });
  return given;
}

function restTaker(wishes: readonly ColumnWish[]): number {
  const texts = wishes.map((wish, at) => ({ at, rank: wish.whole - (wish.numeric ? 1e6 : 0) }));
  return texts.reduce((best, each) => (each.rank > best.rank ? each : best), { at: 0, rank: Number.NEGATIVE_INFINITY }).at;
}

const sum = (values: readonly number[]): number => values.reduce((total, value) => total + value, 0);
