import { mixedStrengthGL, strengthAfterGL } from './hypochlorite-strength.js';

export interface StrengthDip {
  readonly at: Date;
  /** In the tank, with the heel */
  readonly volumeL: number;
  /** As measured; null where it was not */
  readonly strengthGL: number | null;
}

export interface StrengthDelivery {
  readonly at: Date;
  readonly volumeL: number;
  /** By the delivery note; null: the usual strength */
  readonly strengthGL: number | null;
}

export interface StrengthAssay {
  readonly at: Date;
  readonly strengthGL: number;
}

const MS_PER_DAY = 86_400_000;

/**
 * The strength of the hypochlorite in a tank at any moment, g/L: it loses strength with time, a delivery mixes with what the last dip found in the tank, and a
 * measured strength, of a dip or of an assay, goes before the reckoned one. Before the first delivery or measurement the usual strength is taken as fresh. Events in any order.
 *
 * Source: `strengthAfterGL` for the loss, mass balance for the mixing; one mixed state a tank, since what was poured together cannot be told apart (common practice).
 */
export function strengthRecord(
  dips: readonly StrengthDip[],
  deliveries: readonly StrengthDelivery[],
  { usualGL, storageC, assays = [] }: { usualGL: number; storageC: number; assays?: readonly StrengthAssay[] },
): (at: Date) => number {
  const events = [
    ...dips.map((dip) => ({ kind: 'dip' as const, ...dip })),
    ...deliveries.map((delivery) => ({ kind: 'delivery' as const, ...delivery })),
    ...assays.map((assay) => ({ kind: 'assay' as const, ...assay })),
  ].sort((a, b) => a.at.getTime() - b.at.getTime());
  const aged = (state: { atMs: number; strengthGL: number }, atMs: number): number =>
    strengthAfterGL(state.strengthGL, (atMs - state.atMs) / MS_PER_DAY, storageC);
  const states: { atMs: number; strengthGL: number }[] = [];
  let inTankL = 0;
  for (const event of events) {
    const atMs = event.at.getTime();
    const before = states.at(-1);
    const now = before === undefined ? usualGL : aged(before, atMs);
    if (event.kind === 'assay') states.push({ atMs, strengthGL: event.strengthGL });
    else if (event.kind === 'dip') {
      inTankL = event.volumeL;
      states.push({ atMs, strengthGL: event.strengthGL ?? now });
    } else {
      const mixed = mixedStrengthGL([
        { volumeL: inTankL, strengthGL: now },
        { volumeL: event.volumeL, strengthGL: event.strengthGL ?? usualGL },
      ]);
      inTankL += event.volumeL;
      states.push({ atMs, strengthGL: mixed ?? now });
    }
  }
  return (at) => {
    const state = states.findLast(({ atMs }) => atMs <= at.getTime());
    return state === undefined ? usualGL : aged(state, at.getTime());
  };
}
