/** The limits of use and of time that an override can change. */
export interface OverridableLimits {
  readonly runHours: number | null;
  readonly starts: number | null;
  readonly cycles: number | null;
  readonly days: number | null;
  readonly graceDays: number | null;
}

export interface RuleAtKind extends OverridableLimits {
  readonly task: string;
  readonly positionKind: string;
  /** Of one skid alone; `null`: of the version of the set that it follows */
  readonly skidId: string | null;
}

export interface Override extends OverridableLimits {
  readonly task: string;
  readonly positionKind: string;
  /** `null`: at every position of the kind */
  readonly positionId: string | null;
  readonly off: boolean;
  readonly reason: string;
}

export interface EffectiveRule<R extends RuleAtKind, O extends Override> {
  /** With the limits that hold here */
  readonly rule: R;
  readonly source: 'set' | 'skid' | 'override';
  readonly override: O | null;
}

/**
 * The rules that hold at one position (or at the skid as a whole, `id` null). A rule of the skid alone takes the place of one of its set for the same task; an override of
 * this position goes before one of its kind. An override that names a limit of use or time takes the place of all of these limits of the rule; its grace is taken when
 * it names one. One that says `off` takes the rule away.
 *
 * Source: own definition.
 *
 * @example effectiveRules({ id: 'p', kind: 'valve' }, [], []) // => []
 */
export function effectiveRules<R extends RuleAtKind, O extends Override>(
  place: { readonly id: string | null; readonly kind: string },
  rules: readonly R[],
  overrides: readonly O[],
): EffectiveRule<R, O>[] {
  const here = rules.filter(({ positionKind }) => positionKind === place.kind);
  const own = new Set(here.filter(({ skidId }) => skidId !== null).map(({ task }) => task));
  return here
    .filter(({ skidId, task }) => skidId !== null || !own.has(task))
    .flatMap((rule): EffectiveRule<R, O>[] => {
      const matching = overrides.filter(({ task, positionKind }) => task === rule.task && positionKind === rule.positionKind);
      const override =
        matching.find(({ positionId }) => positionId === place.id && positionId !== null) ?? matching.find(({ positionId }) => positionId === null);
      if (override === undefined) return [{ rule, source: rule.skidId === null ? 'set' : 'skid', override: null }];
      return override.off ? [] : [{ rule: withLimits(rule, override), source: 'override', override }];
    });
}

function withLimits<R extends RuleAtKind>(rule: R, { runHours, starts, cycles, days, graceDays }: Override): R {
  const limits = [runHours, starts, cycles, days].every((limit) => limit === null) ? {} : { runHours, starts, cycles, days };
  return { ...rule, ...limits, graceDays: graceDays ?? rule.graceDays };
}
