import { CHLORINE_ROWS, GIARDIA_3_LOG, PH_COLUMNS, VIRUS_4_LOG } from './ct-tables.js';

/** The water at the end of a segment, at its worst hour. */
export interface ChlorinatedWater {
  readonly temperatureC: number;
  readonly ph: number;
  readonly chlorineMgL: number;
}

export type RequiredCt =
  | {
      readonly kind: 'required';
      /** For 3 log of Giardia; `null` where the pH is above the table */
      readonly giardia3LogCt: number | null;
      /** For 4 log of viruses */
      readonly virus4LogCt: number;
      /** The cell that was read */
      readonly cell: { readonly temperatureC: number; readonly ph: number | null; readonly chlorineMgL: number };
    }
  | { readonly kind: 'outside the tables'; readonly reason: string };

const COLDEST_C = 0.5;
const LOWEST_PH = 6;
const HIGHEST_PH = 10;
const VIRUS_PH_TO = 9;

/**
 * The CT that free chlorine needs, mg min/L, read to the safe side: temperature down to the next table, pH up, chlorine up (more chlorine needs more CT for Giardia); above
 * 3 mg/L its last row, above 25 degC the last table. pH above 9 is not tabulated for Giardia, and takes the block of pH 10 for viruses. pH below 6 takes the column of 6.
 *
 * Source: EPA 815-R-20-003 (2020), tables B-1 and B-2; the rule of reading: US state guidance on the tables.
 *
 * @example requiredCt({ temperatureC: 15, ph: 7.2, chlorineMgL: 1.1 }).giardia3LogCt // => 92
 * @example requiredCt({ temperatureC: 0, ph: 7, chlorineMgL: 1 }).kind // => "outside the tables"
 */
export function requiredCt({ temperatureC, ph, chlorineMgL }: ChlorinatedWater): RequiredCt {
  const block = GIARDIA_3_LOG.findLast(({ fromC }) => temperatureC >= fromC);
  const virus = VIRUS_4_LOG.findLast(([fromC]) => temperatureC >= fromC);
  if (block === undefined || virus === undefined) return outside(`The tables begin at ${COLDEST_C} °C`);
  if (ph > HIGHEST_PH) return outside(`The tables end at pH ${HIGHEST_PH}`);
  if (!(chlorineMgL > 0)) return outside('There is no chlorine at the end of the segment');
  const row = CHLORINE_ROWS.findIndex((value) => chlorineMgL <= value);
  const rowRead = row === -1 ? CHLORINE_ROWS.length - 1 : row;
  const column = PH_COLUMNS.findIndex((value) => Math.max(ph, LOWEST_PH) <= value);
  return {
    kind: 'required',
    giardia3LogCt: block.rows[rowRead]?.[column] ?? null,
    virus4LogCt: ph <= VIRUS_PH_TO ? virus[1] : virus[2],
    cell: { temperatureC: block.fromC, ph: PH_COLUMNS[column] ?? null, chlorineMgL: CHLORINE_ROWS[rowRead] ?? 0 },
  };
}

function outside(reason: string): RequiredCt {
  return { kind: 'outside the tables', reason };
}
