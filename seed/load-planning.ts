import type { INestApplicationContext } from '@nestjs/common';
import { PlanningData } from '../src/visits/planning/planning-data.js';
import { Rates } from '../src/visits/planning/rates/rates.js';
import { PEOPLE_PLANNING, RATES, SITES_PLANNING } from './data/planning.js';
import { DAY_MS, dayText } from './generate/period.js';
import type { ScenarioIds } from './insert-registry.js';
import type { Scenario } from './types.js';

const NOTHING_ENTERED = 0;
const ENTERED_BY = 'ines.halvorsen';
const HOURS = { restHours: 11, overtimeHoursAWeek: 8, breakMinutes: 30, breakFrom: '11:00', breakUntil: '13:30' };
const WEEK = { workDays: [1, 2, 3, 4, 5], shiftFrom: '06:30', regularUntil: '15:30', shiftUntil: '18:30' };

/** What planning knows of people and sites, entered as managers enter it; a smaller fleet has fewer sites. */
export async function loadPlanning(app: INestApplicationContext, { until }: Scenario, ids: ScenarioIds): Promise<void> {
  const planning = app.get(PlanningData, { strict: false });
  const dayIn = (days: number) => dayText(until.getTime() + days * DAY_MS);
  for (const { personKey, inDaysOff, inDaysOnCall, skills, ...person } of PEOPLE_PLANNING) {
    const id = ids.people.get(personKey);
    const daysOff = inDaysOff === null ? [] : [{ from: dayIn(inDaysOff.from), until: dayIn(inDaysOff.until), reason: inDaysOff.reason }];
    const onCall = [{ from: dayIn(inDaysOnCall.from), until: dayIn(inDaysOnCall.until) }];
    if (id !== undefined) await planning.replacePerson(id, NOTHING_ENTERED, { ...WEEK, ...HOURS, ...person, skills: [...skills], daysOff, onCall });
  }
  await app.get(Rates, { strict: false }).edit({ name: ids.names.get(ENTERED_BY) ?? ENTERED_BY }, NOTHING_ENTERED, RATES);
  for (const { siteKey, windows, extraMinutes, access = {} } of SITES_PLANNING) {
    const id = ids.sites.get(siteKey)?.id;
    const open = windows.map(({ days, from, until: end }) => ({ days: [...days], from, until: end }));
    if (id !== undefined) await planning.replaceSite(id, NOTHING_ENTERED, { windows: open, extraMinutes, mayWorkAlone: true, ...access });
  }
}
