// Taken out of the global object once: these run some ten million times, and in a context of its own (tests) a module looks globals up slowly.
const { imul, floor, cos, PI } = Math;

/**
 * Random numbers that are the same on every run. Each use draws from a stream of its own, named by a text, so that a change in one place leaves the others
 * as they were.
 */
export interface Random {
  /** 0 or more, below 1 */
  uniform(): number;
  between(low: number, high: number): number;
  /** Mean 0, standard deviation 1, never beyond 3 */
  normal(): number;
  pick<T>(list: readonly [T, ...T[]]): T;
}

/** FNV-1a, 32 bit. */
export function seedOf(text: string): number {
  let hash = 0x811c9dc5;
  for (let index = 0; index < text.length; index += 1) hash = imul(hash ^ text.charCodeAt(index), 0x01000193);
  return hash >>> 0;
}

/** The generator known as mulberry32: a counter, mixed. */
export function randomOf(text: string): Random {
  let state = seedOf(text);
  const uniform = () => {
    state = (state + 0x6d2b79f5) >>> 0;
    return mix(state);
  };
  return {
    uniform,
    between: (low, high) => low + (high - low) * uniform(),
    normal: () => (uniform() + uniform() + uniform() - 1.5) * 2,
    pick: (list) => list[floor(uniform() * list.length)] ?? list[0],
  };
}

/** One number from 0 to 1 for every whole number, so that the weather of a day does not depend on where the record begins. */
export function uniformAt(seed: number, index: number): number {
  return mix((seed + imul(index, 0x6d2b79f5)) >>> 0);
}

function mix(state: number): number {
  let mixed = imul(state ^ (state >>> 15), state | 1);
  mixed ^= mixed + imul(mixed ^ (mixed >>> 7), mixed | 61);
  return ((mixed ^ (mixed >>> 14)) >>> 0) / 4_294_967_296;
}

/** A slow wander around 0 with a standard deviation of about 0.8: it goes smoothly from one random value at whole `x` to the next. */
export function wander(seed: number, x: number): number {
  const left = floor(x);
  const share = (1 - cos(PI * (x - left))) / 2;
  return normalAt(seed, left) * (1 - share) + normalAt(seed, left + 1) * share;
}

function normalAt(seed: number, index: number): number {
  return (uniformAt(seed, 3 * index) + uniformAt(seed, 3 * index + 1) + uniformAt(seed, 3 * index + 2) - 1.5) * 2;
}
