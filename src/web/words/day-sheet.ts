/** The day of one technician on paper. */
export const daySheetWords = {
  title: (name: string) => `Day sheet of ${name}`,
  link: 'Day sheets to print',
  own: 'Yourself',
  what: 'visits of the day',
  none: 'No visits on that day.',
  noneWhy: 'Choose another day or technician.',
  route: 'In this order',
  stop: (from: string, until: string, site: string) => `${from}–${until} ${site}`,
  numbered: (no: number, site: string) => `${no}. ${site}`,
  client: 'Client',
  access: 'Getting in',
  contacts: 'Whom to call',
  whatWayIn: 'way in',
  job: (title: string, skid: string) => `${title}, ${skid}`,
} as const;
