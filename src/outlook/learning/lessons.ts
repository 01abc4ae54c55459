import type { EarlierLife } from '../core/clogging/course.js';
import { type LearnedCombinations, learnCombinations } from '../core/clogging/fleet.js';
import { type LifeOfKind, lifeOfKind, type TooFewLives } from '../core/lives/life-of-kind.js';
import type { SeenLife } from '../core/lives/weibull-fit.js';
import { type LearnedMembranes, learnMembranes, type MembraneRecord, taughtBy } from '../core/skid/learned-membranes.js';

/** What a fleet is learned from, and what comes of it: plain data that goes to another thread and back. */
export const LESSONS = {
  cartridges: (lives: readonly EarlierLife[]): LearnedCombinations => learnCombinations(lives),
  membranes: ({ records, at }: { readonly records: readonly MembraneRecord[]; readonly at: Date }): LearnedMembranes | null =>
    learnMembranes(records.map(taughtBy), at),
  lives: (kinds: ReadonlyMap<string, readonly SeenLife[]>): Map<string, LifeOfKind | TooFewLives> =>
    new Map([...kinds].map(([of, lives]) => [of, lifeOfKind(lives)])),
} as const;

export type Lesson = keyof typeof LESSONS;
export type Asked<Of extends Lesson> = Parameters<(typeof LESSONS)[Of]>[0];
export type Taught<Of extends Lesson> = ReturnType<(typeof LESSONS)[Of]>;
