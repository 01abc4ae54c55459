import { View } from '../app/index.js';

/** Life and use of a machine by one of its counters. */
export class MachineView extends View {
  readonly positionId!: string;
  readonly positionName!: string;
  readonly positionKind!: string;
  /** run hours, starts, cycles or strokes */
  readonly counter!: string;
  readonly life!: number;
  readonly asOf!: Date;
  /** Mean of the recent weeks; null: too few readings */
  readonly dailyUse!: number | null;
  /** Where it comes from, in words */
  readonly source!: string;
  /** Readings that were not counted, each with its reason */
  readonly rejected!: string[];
}
