import type { Schemas } from '../../api/client.js';
import { minutes, number } from '../../format.js';
import { weekday } from '../../visits/weekday.js';
import { whatIfWords as said } from '../../words/what-if.js';
import { namesOf } from '../lines.js';

type Kind = Schemas['PlanCostView']['kind'];
interface Counts {
  readonly costs: readonly Schemas['PlanCostView'][];
}
interface Answer extends Pick<Schemas['WhatIfView'], 'currency' | 'placedOtherwise' | 'leftOutOtherwise' | 'later'> {
  readonly now: Counts;
  readonly otherwise: Counts;
}

/** The comparison in sentences, what matters most to people first: what is done or not, then nights and lateness, then the whole. */
export function whatIfInWords({ currency, now, otherwise, placedOtherwise, leftOutOtherwise, later }: Answer): string[] {
  const namesOfWork = (works: Answer['placedOtherwise']) => works.map(({ text }) => text).join('; ');
  const inAll = whole(otherwise, currency) - whole(now, currency);
  const difference = Math.abs(inAll);
  const worth = currency === null ? said.asTime(minutes(difference)) : `${currency} ${number(difference)}`;
  return [
    ...later.map(({ text, now: here, otherwise: there }) => said.moves(text, placeInWords(here), placeInWords(there))),
    ...(placedOtherwise.length > 0 ? [said.placed(namesOfWork(placedOtherwise))] : []),
    ...(leftOutOtherwise.length > 0 ? [said.leftOut(namesOfWork(leftOutOtherwise))] : []),
    ...moreOrLess(countOf(otherwise, 'nights') - countOf(now, 'nights'), said.nights),
    ...moreOrLess(countOf(otherwise, 'late') - countOf(now, 'late'), said.late),
    inAll === 0 ? said.same : inAll > 0 ? said.inAll.more(worth) : said.inAll.less(worth),
  ];
}

/** What is left out costs nothing: it is not done. */
function whole({ costs }: Counts, currency: string | null): number {
  const placed = costs.filter(({ kind }) => kind !== 'left out');
  return Math.round(placed.reduce((sum, cost) => sum + (currency === null ? cost.minutes : (cost.money ?? 0)), 0));
}

const countOf = ({ costs }: Counts, kind: Kind) => costs.find((cost) => cost.kind === kind)?.count ?? 0;

const moreOrLess = (difference: number, words: { readonly more: (many: number) => string; readonly less: (many: number) => string }) =>
  difference === 0 ? [] : [difference > 0 ? words.more(difference) : words.less(-difference)];

const placeInWords = (place: Answer['later'][number]['now']) =>
  place === null ? said.nowhere : `${weekday(place.day)}, ${place.startAt}, ${namesOf(place.people)}`;
