import { type DoubtfulDays, doubtInWords } from '../../instruments/core/doubt-in-words.js';
import { type Figure, figuresFed, type PressureBasis } from '../../instruments/core/figures-fed.js';
import type { Day } from '../../shared/day.js';
import { isSignalCode } from '../../shared/signals.js';
import type { OutlookLimit } from '../../shared/upkeep-terms.js';

/** A time in which a signal rests on an instrument that was out of tolerance. */
export interface DoubtOfSignal extends DoubtfulDays {
  readonly signal: string;
}

/** Figures that an outlook is made of. */
const FIGURES: Record<OutlookLimit, readonly Figure[]> = {
  permeability: ['permeability', 'filtrate'],
  'cartridge dP': ['cartridge pressure drop', 'filtrate'],
};

/**
 * What an outlook has to say of instruments that were found wrong: one sentence for each time of doubt that touches the days from the first to the last and a figure that the
 * outlook is made of. Without days it has nothing to say.
 *
 * Source: own definition.
 *
 * @example doubtsOfOutlook([{ signal: 'chlorine', reason: 'free chlorine was found 1 mg/L high on 20 Nov 2026', fromDay: null, toDay: null }], { limit: 'permeability', firstDay: '2026-11-01', lastDay: '2026-11-20', basis: { scheme: null, tmpFrom: null } }) // => []
 */
export function doubtsOfOutlook(
  doubts: readonly DoubtOfSignal[],
  outlook: { readonly limit: OutlookLimit; readonly firstDay: Day | null; readonly lastDay: Day | null; readonly basis: PressureBasis },
): string[] {
  const { limit, firstDay, lastDay, basis } = outlook;
  if (firstDay === null || lastDay === null) return [];
  const touches = ({ fromDay, toDay }: DoubtfulDays) => (fromDay === null || fromDay <= lastDay) && (toDay === null || toDay >= firstDay);
  const feeds = (signal: string) => isSignalCode(signal) && figuresFed(signal, basis).some((figure) => FIGURES[limit].includes(figure));
  return doubts.filter((doubt) => touches(doubt) && feeds(doubt.signal)).map(doubtInWords);
}
