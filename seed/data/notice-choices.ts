import type { ScenarioNoticeChoice } from '../work-types.js';

/** Who is not named here gets what is usual for the role. */
export const NOTICE_CHOICES: readonly ScenarioNoticeChoice[] = [
  { personKey: 'ines.halvorsen', digest: 'daily', hour: 6, timeZone: 'Europe/London', atOnce: true },
  { personKey: 'tomas.reedway', digest: 'weekly', hour: 7, timeZone: 'Europe/London', atOnce: false },
  { personKey: 'jonah.pikkala', digest: 'daily', hour: 5, timeZone: 'Europe/Amsterdam', atOnce: true },
  { personKey: 'orla.fennimore', digest: 'weekly', hour: 8, timeZone: 'Europe/London', atOnce: false },
  { personKey: 'pilar.vasconde', digest: 'off', hour: 8, timeZone: 'Europe/Madrid', atOnce: false },
];
