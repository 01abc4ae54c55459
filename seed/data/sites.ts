import type { SitePlan } from '../plan.js';
import type { ScenarioClient } from '../types.js';

/** Every name, place and person of the demo is invented. */
export const COMPANY = 'Quillfen Skid Service (demo)';

const client = (key: string, name: string): ScenarioClient => ({ key, name: `${name} (demo)`, note: 'Demo data: invented client.' });

export const CLIENTS: readonly ScenarioClient[] = [
  client('fernhollow', 'Fernhollow Town Water'),
  client('brennholm', 'Brennholm Dairy Cooperative'),
  client('vaalholt', 'Vaalholt Reuse Board'),
  client('hintertann', 'Hintertann Paper'),
  client('merla', 'Punta Merla Desalination'),
];

export const SITES: readonly SitePlan[] = [
  {
    key: 'fernhollow-works',
    clientKey: 'fernhollow',
    name: 'Fernhollow Waterworks',
    latitude: 54.12,
    longitude: -1.72,
    timeZone: 'Europe/London',
    accessHours: 'Mon-Fri 07:30-16:30, gate code from the control room',
    region: 'northern hills',
    warmerC: 0,
  },
  {
    key: 'nether-wick',
    clientKey: 'fernhollow',
    name: 'Nether Wick Reservoir',
    latitude: 53.86,
    longitude: -1.98,
    timeZone: 'Europe/London',
    accessHours: 'Mon-Fri 08:00-15:30',
    region: 'northern hills',
    warmerC: -0.6,
  },
  {
    key: 'brennholm-dairy',
    clientKey: 'brennholm',
    name: 'Brennholm Dairy',
    latitude: 55.71,
    longitude: 9.24,
    timeZone: 'Europe/Copenhagen',
    accessHours: 'Every day 06:00-22:00, hygiene briefing at the entrance',
    region: 'straits',
    warmerC: -0.4,
  },
  {
    key: 'tamarrow-creamery',
    clientKey: 'brennholm',
    name: 'Tamarrow Creamery',
    latitude: 46.31,
    longitude: -63.4,
    timeZone: 'America/Halifax',
    accessHours: 'Mon-Fri 07:00-15:00',
    region: 'western ocean',
    warmerC: -1.5,
  },
  {
    key: 'vaalholt-plant',
    clientKey: 'vaalholt',
    name: 'Vaalholt Reuse Plant',
    latitude: 52.34,
    longitude: 6.41,
    timeZone: 'Europe/Amsterdam',
    accessHours: 'Mon-Thu 07:00-16:00, Fri 07:00-13:00',
    region: 'low plain',
    warmerC: 0,
  },
  {
    key: 'hintertann-mill',
    clientKey: 'hintertann',
    name: 'Hintertann Mill',
    latitude: 47.58,
    longitude: 13.07,
    timeZone: 'Europe/Vienna',
    accessHours: 'Every day, report to the shift leader',
    region: 'mountains',
    warmerC: -1,
  },
  {
    key: 'obersill-works',
    clientKey: 'hintertann',
    name: 'Obersill Power House',
    latitude: 47.23,
    longitude: 12.61,
    timeZone: 'Europe/Vienna',
    accessHours: 'Tue and Thu 08:00-12:00; the road is closed after heavy snow',
    region: 'mountains',
    warmerC: -2,
  },
  {
    key: 'merla-intake',
    clientKey: 'merla',
    name: 'Punta Merla Intake',
    latitude: 37.83,
    longitude: -0.79,
    timeZone: 'Europe/Madrid',
    accessHours: 'Every day 07:00-19:00',
    region: 'southern sea',
    warmerC: 0.5,
  },
];
