import { words } from '../words.js';

const format = new Intl.DateTimeFormat(words.locale, { weekday: 'short', day: 'numeric', month: 'short', timeZone: 'UTC' });

/** "Tue 24 Nov", of a local date such as `2026-11-24`. */
export const weekday = (date: string): string =>
  format
    .format(new Date(`${date}T00:00:00Z`))
    .replace(',', '')
    .replace('Sept', 'Sep');
