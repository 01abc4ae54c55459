import type { Standing } from '../../shared/standing.js';

/** The light colours of the pages, on paper. A test holds them against the pages' own. */
export const INKS = {
  surface: '#ffffff',
  sunk: '#dfe4e3',
  ink: '#17242a',
  inkSoft: '#4a5a61',
  line: '#c5cdcd',
  edge: '#71818a',
  watch: '#a37a1c',
  due: '#9c4518',
  overdue: '#720d3f',
  cut: '#ffffff',
  data: '#3a76ad',
} as const;

/** How much of the data's ink the band of a forecast has. */
export const BAND_SHARE = 0.24;

export const STANDING_INKS: Record<Standing, string> = {
  steady: INKS.edge,
  'no-data': INKS.edge,
  watch: INKS.watch,
  due: INKS.due,
  overdue: INKS.overdue,
};
