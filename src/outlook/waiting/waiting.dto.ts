import { IsUUID } from 'class-validator';
import { View } from '../../app/index.js';

export class WaitingParams {
  @IsUUID()
  skidId!: string;
}

/** What acting on a day costs, term by term, in the reckoning currency. */
export class WaitingPointView extends View {
  /** Local date */
  readonly on!: string;
  readonly lifeThrownAway!: number;
  /** Of coming after the limit: its probability times what that costs more */
  readonly risk!: number;
  /** Energy for higher pressure until then */
  readonly energy!: number;
  /** Production lost until then, after the limit */
  readonly production!: number;
  /** Of all of them together, more than on the cheapest day */
  readonly extra!: number;
}

/** What waiting with one part costs. */
export class WaitingView extends View {
  /** What the limit is of: the membranes, or the position of the part */
  readonly subject!: string;
  readonly limitKind!: string;
  readonly kind!: 'waiting' | 'prices-missing' | 'no-forecast';
  /** ISO 4217 */
  readonly currency!: string;
  /** Local date; null: cannot be told */
  readonly cheapestOn!: string | null;
  readonly inWords!: string;
  /** Without these nothing can be weighed */
  readonly missing!: string[];
  /** Left out of the sum, since no price is known */
  readonly notCounted!: string[];
  readonly points!: WaitingPointView[];
}
