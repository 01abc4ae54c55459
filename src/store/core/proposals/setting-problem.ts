/** How somebody wants an item kept at a place; null: as usual. */
interface Wanted {
  readonly service: string | null;
  /** A share */
  readonly asked: number | null;
  readonly shortCost: string | null;
  readonly minimum: string | null;
  readonly maximum: string | null;
}

export interface SettingProblem {
  readonly field: keyof Wanted;
  readonly message: string;
}

/**
 * What contradicts itself in how an item is to be kept at a place; null where nothing does.
 *
 * @example settingProblem({ service: null, asked: 0.95, shortCost: null, minimum: '2', maximum: '3' }) // => null
 * @example settingProblem({ service: 'cost', asked: null, shortCost: null, minimum: null, maximum: null }).field // => "shortCost"
 */
export function settingProblem({ service, asked, shortCost, minimum, maximum }: Wanted): SettingProblem | null {
  if (service === 'cost' && shortCost === null) {
    return { field: 'shortCost', message: 'say what a missing piece costs a month: service by cost weighs it against what stock costs' };
  }
  if (service === 'cost' && asked !== null) return { field: 'asked', message: 'service by cost asks for no share: leave it out' };
  if (minimum !== null && maximum !== null && Number(maximum) < Number(minimum)) {
    return { field: 'maximum', message: `must be no less than the minimum of ${minimum}` };
  }
  return null;
}
