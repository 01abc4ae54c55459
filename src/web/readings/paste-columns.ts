import { words } from '../words.js';
import type { Sheet } from './hand-fields.js';

export interface PasteColumn {
  /** As the service names it: `time`, `skip`, the code of a signal, `meter <id>`, `tank <id>` */
  readonly as: string;
  /** Of a signal or a level; empty: has none */
  readonly unit: string;
}

/** What a column can be, for this skid, in the order of its sheet. */
export function columnChoices(sheet: Sheet): { as: string; label: string; unit: string }[] {
  return [
    { as: 'skip', label: words.backLog.skip, unit: '' },
    { as: 'time', label: words.readings.at, unit: '' },
    { as: 'minutes since backwash', label: words.readings.sinceBackwash, unit: '' },
    ...sheet.gauges.map(({ signal, label, unit }) => ({ as: signal, label, unit })),
    ...sheet.meters.map(({ meterId, label }) => ({ as: `meter ${meterId}`, label, unit: '' })),
    ...sheet.tanks.map(({ tankId, label }) => ({ as: `tank ${tankId}`, label: words.readings.level(label), unit: 'cm' })),
    { as: 'read by', label: words.readings.readBy, unit: '' },
    { as: 'note', label: words.readings.note, unit: '' },
  ];
}

/** The first lines cut into cells: by tab, as sheets copy them, else by semicolon, else by comma. */
export function cellsOf(text: string, lines: number): string[][] {
  const first = text.split(/\r?\n/).filter((line) => line.trim() !== '');
  const mark = ['\t', ';', ','].find((each) => first.some((line) => line.includes(each))) ?? ',';
  return first.slice(0, lines).map((line) => line.split(mark).map((cell) => cell.trim()));
}

/** A first line without any figure is a heading. */
export const hasHeading = (cells: readonly string[][]): boolean => cells[0]?.every((cell) => !/\d/.test(cell)) ?? false;

/** By the heading where there is one, else the time and then the sheet from its top: the order in which the printed sheet asks. */
export function guessColumns(sheet: Sheet, cells: readonly string[][]): PasteColumn[] {
  const choices = columnChoices(sheet);
  const [first = []] = cells;
  if (hasHeading(cells)) {
    return first.map((cell) => {
      const known = choices.find(({ as, label }) => as !== 'skip' && [as, label].some((name) => cell.toLowerCase().startsWith(name.toLowerCase())));
      return { as: known?.as ?? 'skip', unit: known?.unit ?? '' };
    });
  }
  const asked = choices.filter(({ as }) => as !== 'skip' && as !== 'minutes since backwash');
  return first.map((_, at) => ({ as: asked[at]?.as ?? 'skip', unit: asked[at]?.unit ?? '' }));
}
