import { type CatalogueFit } from './catalogue/fit-catalogue.js';
import { stateOf } from './catalogue/item-state.js';
import { unplannedOf } from './catalogue/unplanned.js';
import { changeChances } from './outlooks/change-chances.js';
import { fittedNeed } from './outlooks/fitted-need.js';
import { convolve, mixed } from './pmf/convolve.js';
import { meanOf } from './pmf/pmf.js';
import { addPart } from './pmf/poisson-binomial.js';
import type { Demand, DemandSources, NeedReason, OutlookRecord, PlannedNeed, Pmf, Protection } from './types.js';

const DAYS_A_MONTH = 30.4375;
/** Lead times are taken as this many, of equal probability or nearly, where nobody asks for fewer: the need changes slowly with them. */
const LEAD_TIMES = 6;

/**
 * The need until what is ordered at the next review has come: for each lead time the sum of plans, outlooks and the rest, then their mean over lead times. It is
 * the distribution that is averaged, not the lead time. What is reserved already is left out.
 */
export function needUntil(
  { use, planned, fitted }: DemandSources,
  protection: Protection,
  fit: CatalogueFit,
  record: OutlookRecord,
  leadTimes = LEAD_TIMES,
): Demand {
  const spans = spansOf(protection, leadTimes);
  const weights = spans.map(({ share }) => share);
  const over = (of: (days: number) => number) => spans.reduce((sum, { days, share }) => sum + share * of(days), 0);
  const past = stateOf(use);
  const parts = spans.map(({ days }) => ({
    plans: plannedNeed(planned, days),
    outlooks: fittedNeed(fitted, days, record),
    rest: unplannedOf(past, days / DAYS_A_MONTH, fit),
  }));
  const pmf = mixed(
    parts.map(({ plans, outlooks, rest }) => convolve(convolve(plans, outlooks), rest)),
    weights,
  );
  const mean = (of: readonly Pmf[]) => of.reduce((sum, one, at) => sum + (weights[at] ?? 0) * meanOf(one), 0);
  const ofTheRest = mean(parts.map(({ rest }) => rest));
  const daysCovered = over((days) => days);
  const reasons: NeedReason[] = [
    ...planned.map(({ cause, inDays, ...need }) => ({
      kind: 'planned' as const,
      cause,
      inDays,
      expected: over((days) => open(need) * chanceBy({ inDays, ...need }, days)),
    })),
    ...fitted.map((part) => ({
      kind: 'outlook' as const,
      cause: part.cause,
      p50Days: part.stated.p50Days,
      expected: over((days) => {
        const { once, twice } = changeChances(part, days, record);
        return part.quantity * (once + twice);
      }),
    })),
    { kind: 'unplanned' as const, perMonth: daysCovered === 0 ? 0 : (ofTheRest / daysCovered) * DAYS_A_MONTH, months: use.length, expected: ofTheRest },
  ];
  return {
    pmf,
    mean: meanOf(pmf),
    ofPlans: mean(parts.map(({ plans }) => plans)),
    ofOutlooks: mean(parts.map(({ outlooks }) => outlooks)),
    ofTheRest,
    reasons: reasons.filter(({ expected }) => expected > 1e-6).sort((a, b) => b.expected - a.expected),
    daysCovered,
  };
}

const open = ({ quantity, reserved }: Pick<PlannedNeed, 'quantity' | 'reserved'>) => Math.max(0, quantity - reserved);

/** A day that slips does so by an exponential time. */
function chanceBy({ inDays, slipDays }: Pick<PlannedNeed, 'inDays' | 'slipDays'>, days: number): number {
  const after = days - Math.max(0, inDays);
  if (after < 0) return 0;
  return slipDays > 0 ? 1 - Math.exp(-(after + 1) / slipDays) : 1;
}

function plannedNeed(planned: readonly PlannedNeed[], days: number): Pmf {
  const within = planned.map((need) => ({ pieces: open(need), chance: chanceBy(need, days) })).filter(({ pieces, chance }) => pieces > 0 && chance > 0);
  const pmf = new Float64Array(within.reduce((sum, { pieces }) => sum + pieces, 1));
  pmf[0] = 1;
  let last = 0;
  for (const { pieces, chance } of within) last = addPart(pmf, last, pieces, chance, 0);
  return pmf;
}

function spansOf({ leadTime, reviewDays }: Protection, leadTimes: number): { readonly days: number; readonly share: number }[] {
  const spans: { days: number; share: number }[] = [];
  let [share, days] = [0, 0];
  for (const [day, chance] of leadTime.entries()) {
    share += chance;
    days += chance * day;
    if (share > 1e-12 && (share >= 1 / leadTimes - 1e-9 || day === leadTime.length - 1)) {
      spans.push({ days: reviewDays + days / share, share });
      [share, days] = [0, 0];
    }
  }
  return spans.length === 0 ? [{ days: reviewDays, share: 1 }] : spans;
}
