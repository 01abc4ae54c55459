import { expectationOf, type KnownLife, type Said, saidAt } from './members.js';

/** A forecast for a life that is over, made as if it were not known: what was said, and what was left. */
export interface PastForecast {
  readonly key: string;
  readonly condition: string;
  readonly said: Said;
  readonly left: number;
  /** Share of the life gone, as the stretched course would have it */
  readonly u: number;
}

const SHARES = [0.1, 0.2, 0.3, 0.4, 0.5, 0.6, 0.7, 0.8, 0.9, 0.95] as const;

/**
 * Forecasts of every finished life from the others; with `newCondition` from those of other conditions alone, as for a part whose condition was never seen.
 */
export function pastForecasts(
  lives: readonly KnownLife[],
  { byOrder, newCondition }: { readonly byOrder: boolean; readonly newCondition: boolean },
): PastForecast[] {
  return lives
    .filter(({ ended }) => ended === 'limit')
    .flatMap((life) => {
      const others = lives.filter((other) => (newCondition ? other.condition !== life.condition : other !== life));
      const expectation = expectationOf(others, life, byOrder);
      if (expectation === null) return [];
      return SHARES.flatMap((share) => {
        const now = share * life.life;
        const said = saidAt(expectation, life.course, life.climb, now);
        return said === null ? [] : [{ key: life.key, condition: life.condition, said, left: life.life - now, u: now / (now + said.stretch.p50) }];
      });
    });
}
