import type { Schemas } from '../api/client.js';
import { readDecimal } from '../readings/hand-fields.js';

type Row = Schemas['LevelRowDto'];

/** A level table as it is written: a line for each level, with what the tank holds up to there. */
export const levelLines = (rows: readonly Row[] | null): string => (rows ?? []).map(({ levelM, volumeL }) => `${levelM} ${volumeL}`).join('\n');

/** The rows that were written; the number of the first line that does not hold two numbers where there is one. */
export function levelRows(text: string): { rows: Row[] } | { unreadLine: number } {
  const lines = text.split('\n').filter((line) => line.trim() !== '');
  const rows = lines.map((line) =>
    line
      .trim()
      .split(/[\s;]+/)
      .map(readDecimal),
  );
  const at = rows.findIndex(([levelM, volumeL, ...rest]) => levelM === undefined || volumeL === undefined || rest.length > 0);
  return at === -1 ? { rows: rows.map(([levelM = 0, volumeL = 0]) => ({ levelM, volumeL })) } : { unreadLine: at + 1 };
}
