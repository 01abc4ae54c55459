/** Visits of the next two weeks, made from what is due at the site then. */
export const COMING_VISITS = [
  {
    siteKey: 'fernhollow-works',
    inDays: 2,
    startTime: '08:00',
    people: ['jonah.pikkala'],
    tasks: 3,
    isPromised: true,
    note: 'Take the seals for the housing along',
    noteToClient: 'One skid after the other is off for about an hour. Please have the clear-water tank full by 08:00.',
  },
  {
    siteKey: 'hintertann-mill',
    inDays: 6,
    startTime: '09:30',
    people: ['marit.dunnoway'],
    tasks: 3,
    isPromised: true,
    note: '',
    noteToClient: 'UF 1 is off from 10:00 until noon; please tell the shift.',
  },
  {
    siteKey: 'vaalholt-plant',
    inDays: 9,
    startTime: '10:30',
    people: ['signe.aldermoor'],
    tasks: 4,
    isPromised: false,
    note: 'Ask whether the crane is free before this is promised',
    noteToClient: '',
  },
] as const;

/** Work that nobody has put into a visit yet, of what is due at the skid. */
export const COMING_JOBS = [
  { skidKey: 'wick-1', tasks: 3, request: '', waitsFor: '' },
  { skidKey: 'merla-1', tasks: 2, request: '', waitsFor: 'Fresh chemicals for the clean: ordered, expected next week' },
] as const;

/** What people of clients have asked for in the last days. Without a severity: a question or a wish. */
export const ASKED = [
  {
    by: 'orla.fennimore',
    skidKey: 'fern-2',
    position: 'Feed pump',
    title: 'UF 2 gives less water than usual',
    request: 'Since this morning it stays about a tenth below what we set, and the pump is louder than that of UF 1.',
    severity: 'less water',
    hoursAgo: 5,
    answer: '',
  },
  {
    by: 'bo.tamarind',
    skidKey: 'tam-1',
    position: null,
    title: 'May we dose less in winter?',
    request: 'The water is cold and clear now. May we set the hypochlorite dose lower until spring?',
    severity: null,
    hoursAgo: 0,
    answer: 'Please leave it as it is this week. We look at the last three months of readings and tell you by Friday.',
  },
] as const;
