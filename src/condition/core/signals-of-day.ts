import type { CycleFact } from '../../intake/core/cycle-fact.js';
import type { CycleAssessment } from './assess-cycle.js';
import { Gathered } from './gathered.js';
import type { LeftOutReason } from './left-out.js';

type Counts = Readonly<Partial<Record<LeftOutReason, number>>>;

/** What the cycles that began on a day say, without the load that they share with other days. Medians are over the cycles that were not left out; `null` where there is none. */
export interface SaidOfDay {
  /** Cycles that began on this day */
  readonly cycles: number;
  /** Normalised; low and high are the 10th and 90th percentile */
  readonly permeability: { readonly median: number; readonly low: number; readonly high: number; readonly n: number } | null;
  readonly permeabilityStart: number | null;
  readonly fluxLmh: number | null;
  readonly tmpKpa: number | null;
  readonly temperatureC: number | null;
  /** At reference flow and temperature */
  readonly cartridgeDpKpa: number | null;
  readonly feedTurbidityNtu: number | null;
  /** Cycles left out for the membrane, by reason */
  readonly leftOut: Counts;
  /** Cycles left out for the cartridge, by reason */
  readonly cartridgeLeftOut: Counts;
  /** Nothing but readings by hand */
  readonly byHand: boolean;
}

/** Gathers what the cycles of a day say, until it is taken for the day; then it begins anew for the next. */
export class SignalsOfDay {
  private readonly permeability = new Gathered();
  private readonly permeabilityStart = new Gathered();
  private readonly fluxLmh = new Gathered();
  private readonly tmpKpa = new Gathered();
  private readonly temperatureC = new Gathered();
  private readonly cartridgeDpKpa = new Gathered();
  private readonly feedTurbidityNtu = new Gathered();
  private cycles = 0;
  private byHand = 0;
  private leftOut: Partial<Record<LeftOutReason, number>> = {};
  private cartridgeLeftOut: Partial<Record<LeftOutReason, number>> = {};

  add(cycle: CycleFact, { membrane, cartridge }: CycleAssessment): void {
    this.cycles += 1;
    if (cycle.byHand) this.byHand += 1;
    this.feedTurbidityNtu.add(cycle.feedTurbidityNtu);
    if (cartridge.kind === 'assessed') this.cartridgeDpKpa.add(cartridge.cartridgeDpRefKpa);
    else countIn(this.cartridgeLeftOut, cartridge.reason);
    if (membrane.kind === 'left-out') {
      countIn(this.leftOut, membrane.reason);
      return;
    }
    this.permeability.add(membrane.permeabilityLmhBar);
    this.permeabilityStart.add(membrane.permeabilityStartLmhBar);
    this.fluxLmh.add(membrane.fluxLmh);
    this.tmpKpa.add(membrane.tmpKpa);
    this.temperatureC.add(membrane.temperatureC);
  }

  take(): SaidOfDay {
    const said = {
      cycles: this.cycles,
      permeability: this.permeability.takeSpread(),
      permeabilityStart: this.permeabilityStart.takeMedian(),
      fluxLmh: this.fluxLmh.takeMedian(),
      tmpKpa: this.tmpKpa.takeMedian(),
      temperatureC: this.temperatureC.takeMedian(),
      cartridgeDpKpa: this.cartridgeDpKpa.takeMedian(),
      feedTurbidityNtu: this.feedTurbidityNtu.takeMedian(),
      leftOut: this.leftOut,
      cartridgeLeftOut: this.cartridgeLeftOut,
      byHand: this.cycles > 0 && this.byHand === this.cycles,
    };
    [this.cycles, this.byHand, this.leftOut, this.cartridgeLeftOut] = [0, 0, {}, {}];
    return said;
  }
}

function countIn(counts: Partial<Record<LeftOutReason, number>>, reason: LeftOutReason): void {
  counts[reason] = (counts[reason] ?? 0) + 1;
}
