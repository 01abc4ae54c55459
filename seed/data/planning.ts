import type { SiteAccessDto } from '../../src/visits/planning/access/access.dto.js';

interface SitePlanningSeed {
  readonly siteKey: string;
  readonly windows: readonly { readonly days: number[]; readonly from: string; readonly until: string }[];
  readonly extraMinutes: number;
  readonly access?: Pick<SiteAccessDto, keyof SiteAccessDto>;
}

/** Where people start from, when they work and what they may do. Invented. */
export const PEOPLE_PLANNING = [
  {
    personKey: 'jonah.pikkala',
    latitude: 53.95,
    longitude: -1.6,
    mostNights: 2,
    skills: [{ skill: 'Handling of chemicals' }, { skill: 'Chemical cleaning of membranes' }],
    inDaysOff: { from: 8, until: 9, reason: 'Training' },
    inDaysOnCall: { from: 1, until: 7 },
  },
  {
    personKey: 'marit.dunnoway',
    latitude: 47.8,
    longitude: 13.0,
    mostNights: 2,
    skills: [{ skill: 'Handling of chemicals' }, { skill: 'Chemical cleaning of membranes' }],
    inDaysOff: null,
    inDaysOnCall: { from: 8, until: 14 },
  },
  {
    personKey: 'signe.aldermoor',
    latitude: 52.9,
    longitude: 7.1,
    mostNights: 3,
    skills: [{ skill: 'Handling of chemicals' }],
    inDaysOff: null,
    inDaysOnCall: { from: 15, until: 21 },
  },
] as const;

/** What visits cost the company. Invented. */
export const RATES = { currency: 'EUR', workHour: '58', travelHour: '52', overtimeHour: '21', kilometre: '0.42', nightAway: '135' };

/** When the sites let people in, as their own words say, and how people get there. Invented, like everybody whom to call. */
export const SITES_PLANNING: readonly SitePlanningSeed[] = [
  { siteKey: 'fernhollow-works', windows: [{ days: [1, 2, 3, 4, 5], from: '07:30', until: '16:30' }], extraMinutes: 15 },
  {
    siteKey: 'nether-wick',
    windows: [{ days: [1, 2, 3, 4, 5], from: '08:00', until: '15:30' }],
    extraMinutes: 10,
    access: {
      noticeDays: 4,
      escort: true,
      accessNote: 'Report to the warden at the dam.',
      contacts: [
        { name: 'Odelin Marsk', role: 'warden', phone: '+44 1632 960118', email: null },
        { name: 'Control room', role: 'at any hour', phone: '+44 1632 960120', email: 'control@netherwick.example' },
      ],
    },
  },
  { siteKey: 'brennholm-dairy', windows: [{ days: [1, 2, 3, 4, 5, 6, 7], from: '06:00', until: '22:00' }], extraMinutes: 30 },
  { siteKey: 'tamarrow-creamery', windows: [{ days: [1, 2, 3, 4, 5], from: '07:00', until: '15:00' }], extraMinutes: 30 },
  {
    siteKey: 'vaalholt-plant',
    windows: [
      { days: [1, 2, 3, 4], from: '07:00', until: '16:00' },
      { days: [5], from: '07:00', until: '13:00' },
    ],
    extraMinutes: 10,
    access: {
      ferry: { out: ['06:40', '09:10', '12:20'], back: ['10:15', '13:30', '16:40'], minutes: 25 },
      accessNote: 'Vans board ten minutes before the ferry leaves.',
      contacts: [{ name: 'Wiebe Tolhorst', role: 'shift leader', phone: '+44 1632 960164', email: 'wiebe.tolhorst@vaalholt.example' }],
    },
  },
  {
    siteKey: 'obersill-works',
    windows: [{ days: [2, 4], from: '08:00', until: '12:00' }],
    extraMinutes: 20,
    access: { openMonths: [3, 4, 5, 6, 7, 8, 9, 10, 11, 12] },
  },
  { siteKey: 'merla-intake', windows: [{ days: [1, 2, 3, 4, 5, 6, 7], from: '07:00', until: '19:00' }], extraMinutes: 10 },
];
