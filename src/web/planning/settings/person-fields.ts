import type { Schemas } from '../../api/client.js';
import { readDecimal } from '../../readings/hand-fields.js';
import { planningWords } from '../../words/planning.js';
import { rowField, rowsOf } from '../row-entries.js';
import { daysOf, daysText } from './day-digits.js';

type Entries = Readonly<Record<string, string>>;
type Labelled =
  | 'latitude'
  | 'longitude'
  | 'workDays'
  | 'shiftFrom'
  | 'regularUntil'
  | 'shiftUntil'
  | 'mostNights'
  | 'restHours'
  | 'overtimeHoursAWeek'
  | 'breakMinutes'
  | 'breakFrom'
  | 'breakUntil'
  | 'skill'
  | 'lastOn'
  | 'from'
  | 'until'
  | 'reason';

const said = planningWords.person;
export const SKILLS = ['skill', 'lastOn'] as const;
export const DAYS_OFF = ['from', 'until', 'reason'] as const;
export const ON_CALL = ['from', 'until'] as const;
const HOURS = ['restHours', 'overtimeHoursAWeek'];
const BREAK = ['breakMinutes', 'breakFrom', 'breakUntil'];
const USUAL_WEEK = '12345';

/** What a field is called, rows of lists included. */
export const personLabel = (name: string): string => said[(name.split('/').at(-1) ?? name) as Labelled] ?? name;

/** What is stored, as the form holds it; of a person of whom nothing is known yet, the usual week is proposed. */
export function personStart(person: Schemas['PersonPlanningView']): Record<string, string> {
  const isNew = person.version === 0;
  const numeral = (value: number | null) => (value === null ? '' : String(value));
  return {
    latitude: numeral(person.latitude),
    longitude: numeral(person.longitude),
    workDays: isNew ? USUAL_WEEK : daysText(person.workDays),
    shiftFrom: person.shiftFrom ?? '08:00',
    regularUntil: person.regularUntil ?? '16:30',
    shiftUntil: person.shiftUntil ?? '18:00',
    mostNights: String(person.mostNights),
    restHours: numeral(person.restHours),
    overtimeHoursAWeek: numeral(person.overtimeHoursAWeek),
    breakMinutes: numeral(person.breakMinutes),
    breakFrom: person.breakFrom ?? '',
    breakUntil: person.breakUntil ?? '',
    ...Object.fromEntries(
      person.skills.flatMap(({ skill, lastOn }, at) => [
        [rowField('skills', at, 'skill'), skill],
        [rowField('skills', at, 'lastOn'), lastOn ?? ''],
      ]),
    ),
    ...Object.fromEntries(person.onCall.flatMap((days, at) => ON_CALL.map((field) => [rowField('onCall', at, field), days[field]]))),
    ...Object.fromEntries(person.daysOff.flatMap((days, at) => DAYS_OFF.map((field) => [rowField('daysOff', at, field), days[field]]))),
  };
}

/** What needs a change before it is sent; what only the service can judge, it says itself. */
export function checkPerson(entries: Entries): Record<string, string> {
  const problems: Record<string, string> = {};
  for (const [name, text] of Object.entries(entries)) {
    const label = personLabel(name);
    if (name === 'workDays' || name.endsWith('/lastOn')) continue;
    if (HOURS.includes(name)) {
      if (text.trim() !== '' && readDecimal(text) === undefined) problems[name] = planningWords.needHours(label);
      continue;
    }
    if (name === 'breakMinutes' && text.trim() !== '' && !/^\d{1,4}$/.test(text.trim())) problems[name] = planningWords.needWhole(label);
    if (BREAK.includes(name)) continue;
    if (text.trim() === '') problems[name] = planningWords.need(label);
    else if ((name === 'latitude' || name === 'longitude') && readDecimal(text) === undefined) problems[name] = planningWords.needNumber(label);
    else if (name === 'mostNights' && !/^\d{1,4}$/.test(text.trim())) problems[name] = planningWords.needWhole(label);
  }
  return problems;
}

/** As it is sent, once it was checked. */
export function personBody(entries: Entries): Schemas['PersonPlanningDto'] {
  const text = (name: string) => (entries[name] ?? '').trim();
  return {
    latitude: readDecimal(text('latitude')) ?? 0,
    longitude: readDecimal(text('longitude')) ?? 0,
    workDays: daysOf(text('workDays')),
    shiftFrom: text('shiftFrom'),
    regularUntil: text('regularUntil'),
    shiftUntil: text('shiftUntil'),
    mostNights: Number(text('mostNights')),
    restHours: readDecimal(text('restHours')) ?? null,
    overtimeHoursAWeek: readDecimal(text('overtimeHoursAWeek')) ?? null,
    breakMinutes: text('breakMinutes') === '' ? null : Number(text('breakMinutes')),
    breakFrom: text('breakFrom') === '' ? null : text('breakFrom'),
    breakUntil: text('breakUntil') === '' ? null : text('breakUntil'),
    onCall: rowsOf(entries, 'onCall', ON_CALL).map(({ from, until }) => ({ from, until })),
    skills: rowsOf(entries, 'skills', SKILLS).map(({ skill, lastOn }) => ({ skill: skill.trim(), lastOn: lastOn === '' ? null : lastOn })),
    daysOff: rowsOf(entries, 'daysOff', DAYS_OFF).map(({ from, until, reason }) => ({ from, until, reason: reason.trim() })),
  };
}
