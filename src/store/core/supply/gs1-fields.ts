/** The fields of a GS1 element string that tell something of a received item. */
export interface Gs1Field {
  readonly ai: string;
  readonly name: 'gtin' | 'content' | 'lot' | 'produced' | 'bestBefore' | 'expires' | 'serial' | 'count' | 'measure' | 'other';
  /** Exactly, or at most where it varies */
  readonly length: number;
  readonly varies: boolean;
  readonly digits: boolean;
}

const fixed = (ai: string, name: Gs1Field['name'], length: number): Gs1Field => ({ ai, name, length, varies: false, digits: true });
const varying = (ai: string, name: Gs1Field['name'], length: number, digits = false): Gs1Field => ({ ai, name, length, varies: true, digits });

/**
 * Application identifiers by their digits. Source: GS1 Barcode Syntax Dictionary for 00, 01, 10 to 17, 21, 30, 37, 310n, 315n, 316n, 400, 8003 and 8004; the rest from memory.
 */
const FIELDS: readonly Gs1Field[] = [
  fixed('00', 'other', 18),
  fixed('01', 'gtin', 14),
  fixed('02', 'content', 14),
  varying('10', 'lot', 20),
  fixed('11', 'produced', 6),
  fixed('12', 'other', 6),
  fixed('13', 'other', 6),
  fixed('15', 'bestBefore', 6),
  fixed('16', 'other', 6),
  fixed('17', 'expires', 6),
  fixed('20', 'other', 2),
  varying('21', 'serial', 20),
  varying('22', 'other', 20),
  varying('30', 'count', 8, true),
  varying('37', 'count', 8, true),
  varying('240', 'other', 30),
  varying('241', 'other', 30),
  varying('250', 'other', 30),
  varying('400', 'other', 30),
  varying('8003', 'other', 30),
  varying('8004', 'other', 30),
  ...['310', '311', '315', '316'].flatMap((ai) => Array.from('0123456', (decimals) => fixed(`${ai}${decimals}`, 'measure', 6))),
];

const BY_AI = new Map(FIELDS.map((field) => [field.ai, field]));

/**
 * The field that begins at the head of a text; null where none that we know begins there.
 *
 * @example fieldAt('17261231').name // => "expires"
 */
export function fieldAt(text: string): Gs1Field | null {
  for (const length of [2, 3, 4]) {
    const field = BY_AI.get(text.slice(0, length));
    if (field !== undefined) return field;
  }
  return null;
}
