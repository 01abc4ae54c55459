import type { Schemas } from '../../api/client.js';
import { planningWords } from '../../words/planning.js';
import { rowField, rowsOf } from '../row-entries.js';

type Access = Pick<Schemas['SitePlanningView'], 'noticeDays' | 'inductions' | 'escort' | 'ferry' | 'openMonths' | 'accessNote' | 'contacts'>;
type Entries = Readonly<Record<string, string>>;

const said = planningWords.site;
export const CONTACT = ['name', 'role', 'phone', 'email'] as const;
const TIME = /^([01]\d|2[0-3]):[0-5]\d$/;

const listed = (text: string | undefined) =>
  (text ?? '')
    .split(/[,\n]/)
    .map((part) => part.trim())
    .filter((part) => part !== '');

/** How people get in and whom to call, as the form holds it. */
export function accessStart({ noticeDays, inductions, escort, ferry, openMonths, accessNote, contacts }: Access): Record<string, string> {
  return {
    noticeDays: String(noticeDays),
    inductions: inductions.join('\n'),
    escort: escort ? 'yes' : '',
    ferryOut: ferry?.out.join(', ') ?? '',
    ferryBack: ferry?.back.join(', ') ?? '',
    ferryMinutes: String(ferry?.minutes ?? 0),
    openMonths: openMonths.join(', '),
    accessNote,
    ...Object.fromEntries(contacts.flatMap((contact, at) => CONTACT.map((field) => [rowField('contacts', at, field), contact[field] ?? '']))),
  };
}

/** What needs a change before it is sent. */
export function checkAccess(entries: Entries): Record<string, string> {
  const problems: Record<string, string> = {};
  for (const name of ['ferryOut', 'ferryBack'] as const) if (!listed(entries[name]).every((time) => TIME.test(time))) problems[name] = said.needTimes;
  const [out, back] = [listed(entries.ferryOut), listed(entries.ferryBack)];
  if (out.length > 0 && back.length === 0) problems.ferryBack = said.needFerry;
  if (back.length > 0 && out.length === 0) problems.ferryOut = said.needFerry;
  if (!listed(entries.openMonths).every((month) => /^([1-9]|1[0-2])$/.test(month))) problems.openMonths = said.needMonths;
  for (const name of ['noticeDays', 'ferryMinutes'] as const)
    if (!/^\d{1,4}$/.test((entries[name] ?? '').trim())) problems[name] = planningWords.needWhole(said[name]);
  for (const [at, { name }] of rowsOf(entries, 'contacts', CONTACT).entries()) {
    if (name.trim() === '') problems[rowField('contacts', at, 'name')] = planningWords.need(said.name);
  }
  return problems;
}

/** As it is sent, once it was checked. */
export function accessBody(entries: Entries) {
  const [out, back] = [listed(entries.ferryOut), listed(entries.ferryBack)];
  const inductions = (entries.inductions ?? '')
    .split('\n')
    .map((line) => line.trim())
    .filter((line) => line !== '');
  return {
    noticeDays: Number(entries.noticeDays),
    inductions,
    escort: entries.escort === 'yes',
    ferry: out.length === 0 ? null : { out, back, minutes: Number(entries.ferryMinutes) },
    openMonths: listed(entries.openMonths).map(Number),
    accessNote: (entries.accessNote ?? '').trim(),
    contacts: rowsOf(entries, 'contacts', CONTACT).map(({ name, role, phone, email }) => {
      return { name: name.trim(), role: role.trim(), phone: phone.trim(), email: email.trim() === '' ? null : email.trim() };
    }),
  };
}

const FERRY_FIELDS: Readonly<Record<string, string>> = {
  'ferry/out': 'ferryOut',
  'ferry/back': 'ferryBack',
  'ferry/minutes': 'ferryMinutes',
  ferry: 'ferryOut',
};

/** The field of the form that holds what the service names. */
export const accessField = (field: string): string => FERRY_FIELDS[field] ?? field;
