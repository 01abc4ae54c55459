import type { Schemas } from '../api/client.js';
import { planWords } from '../words/plan.js';
import { minutesOf } from './drawing/tour-geometry.js';

type Site = Schemas['SitePlanningView'];
type Person = Pick<Schemas['PersonPlanningView'], 'name' | 'skills'>;

const said = planWords.against;

/** The last departure back, in minutes of the day; null: there is no ferry. */
export const lastFerry = ({ ferry }: Pick<Site, 'ferry'>): number | null => (ferry === null ? null : Math.max(...ferry.back.map(minutesOf)));

/** What of the way to a site speaks against a time there, in words: months of the road, ferry, notice, inductions of whoever goes. */
export function againstWay(site: Site, people: readonly Person[], day: string, start: number, end: number, today: string): string[] {
  const { name, ferry, openMonths, noticeDays, inductions } = site;
  const arrives = ferry === null ? null : Math.min(...ferry.out.map(minutesOf)) + ferry.minutes;
  const leaves = lastFerry(site);
  const days = (Date.parse(day) - Date.parse(today)) / 86_400_000;
  const lacking = people.flatMap((person) =>
    inductions
      .filter((induction) => !person.skills.some(({ skill, lastOn }) => skill === induction && (lastOn === null || lastOn >= day)))
      .map((induction) => said.noInduction(person.name, induction)),
  );
  return [
    ...(openMonths.length > 0 && !openMonths.includes(Number(day.slice(5, 7))) ? [said.roadClosed(name)] : []),
    ...(ferry !== null && arrives !== null && leaves !== null && (start < arrives || end > leaves)
      ? [said.ferry(name, ferry.out.join(', '), ferry.back.join(', '))]
      : []),
    ...(days < noticeDays ? [said.notice(name, noticeDays)] : []),
    ...lacking,
  ];
}
