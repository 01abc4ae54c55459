import type { Schemas } from '../../api/client.js';
import { planningWords } from '../../words/planning.js';
import { rowField, rowsOf } from '../row-entries.js';
import { accessBody, accessStart, CONTACT, checkAccess } from './access-entries.js';
import { daysOf, daysText } from './day-digits.js';

type Entries = Readonly<Record<string, string>>;

const said = planningWords.site;
export const WINDOW = ['days', 'from', 'until'] as const;

const ACCESS = ['noticeDays', 'inductions', 'ferryOut', 'ferryBack', 'ferryMinutes', 'openMonths', 'accessNote'] as const;
type Labelled = (typeof WINDOW)[number] | (typeof CONTACT)[number] | (typeof ACCESS)[number] | 'extraMinutes' | 'mayWorkAlone';

export const siteLabel = (name: string): string => said[(name.split('/').at(-1) ?? name) as Labelled] ?? name;

export const siteStart = ({ windows, extraMinutes, mayWorkAlone, ...access }: Schemas['SitePlanningView']): Record<string, string> => ({
  ...accessStart(access),
  extraMinutes: String(extraMinutes),
  mayWorkAlone: mayWorkAlone ? 'yes' : '',
  ...Object.fromEntries(
    windows.flatMap(({ days, from, until }, at) =>
      Object.entries({ days: daysText(days), from, until }).map(([field, value]) => [rowField('windows', at, field), value]),
    ),
  ),
});

/** What needs a change before it is sent. */
export function checkSite(entries: Entries): Record<string, string> {
  const problems: Record<string, string> = { ...checkAccess(entries) };
  for (const [name, text] of Object.entries(entries)) {
    if (name.endsWith('/days') && text === '') problems[name] = planningWords.needDay;
    else if (name.startsWith('windows/') && text === '') problems[name] = planningWords.need(siteLabel(name));
    else if (name === 'extraMinutes' && !/^\d{1,4}$/.test(text.trim())) problems[name] = planningWords.needWhole(siteLabel(name));
  }
  return problems;
}

/** As it is sent, once it was checked. */
export const siteBody = (entries: Entries): Schemas['SitePlanningDto'] => ({
  windows: rowsOf(entries, 'windows', WINDOW).map(({ days, from, until }) => ({ days: daysOf(days), from, until })),
  extraMinutes: Number(entries.extraMinutes),
  mayWorkAlone: entries.mayWorkAlone === 'yes',
  ...accessBody(entries),
});
