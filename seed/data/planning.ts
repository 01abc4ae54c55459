/** Where people start from, when they work and what they may do. Invented. */
export const PEOPLE_PLANNING = [
  {
    personKey: 'jonah.pikkala',
    latitude: 53.95,
    longitude: -1.6,
    mostNights: 2,
    skills: [{ skill: 'Handling of chemicals' }, { skill: 'Chemical cleaning of membranes' }],
    inDaysOff: { from: 8, until: 9, reason: 'Training' },
  },
  {
    personKey: 'marit.dunnoway',
    latitude: 47.8,
    longitude: 13.0,
    mostNights: 2,
    skills: [{ skill: 'Handling of chemicals' }, { skill: 'Chemical cleaning of membranes' }],
    inDaysOff: null,
  },
  { personKey: 'signe.aldermoor', latitude: 52.9, longitude: 7.1, mostNights: 3, skills: [{ skill: 'Handling of chemicals' }], inDaysOff: null },
] as const;

/** When the sites let people in, as their own words say. */
export const SITES_PLANNING = [
  { siteKey: 'fernhollow-works', windows: [{ days: [1, 2, 3, 4, 5], from: '07:30', until: '16:30' }], extraMinutes: 15 },
  { siteKey: 'nether-wick', windows: [{ days: [1, 2, 3, 4, 5], from: '08:00', until: '15:30' }], extraMinutes: 10 },
  { siteKey: 'brennholm-dairy', windows: [{ days: [1, 2, 3, 4, 5, 6, 7], from: '06:00', until: '22:00' }], extraMinutes: 30 },
  { siteKey: 'tamarrow-creamery', windows: [{ days: [1, 2, 3, 4, 5], from: '07:00', until: '15:00' }], extraMinutes: 30 },
  {
    siteKey: 'vaalholt-plant',
    windows: [
      { days: [1, 2, 3, 4], from: '07:00', until: '16:00' },
      { days: [5], from: '07:00', until: '13:00' },
    ],
    extraMinutes: 10,
  },
  { siteKey: 'obersill-works', windows: [{ days: [2, 4], from: '08:00', until: '12:00' }], extraMinutes: 20 },
  { siteKey: 'merla-intake', windows: [{ days: [1, 2, 3, 4, 5, 6, 7], from: '07:00', until: '19:00' }], extraMinutes: 10 },
] as const;
