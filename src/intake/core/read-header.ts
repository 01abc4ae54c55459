export interface WantedColumn {
  /** As the profile names it; `#3` is the third column, whatever its name */
  readonly name: string;
  /** A file without it cannot be read */
  readonly needed: boolean;
}

export interface HeaderFault {
  readonly column: string;
  readonly message: string;
}

export type HeaderRead =
  /** The place of each wanted column, from 0, in their order; -1 where one that is not needed is missing */
  { readonly kind: 'header'; readonly places: readonly number[] } | { readonly kind: 'bad-header'; readonly faults: readonly HeaderFault[] };

/**
 * Where the wanted columns stand in the first row of a table. Others may be there and are not looked at, even when two of them have the same name; a
 * wanted name that is missing or that two columns have is a fault, since any choice would be a guess.
 *
 * @example readHeader(['time', 'flow'], [{ name: 'flow', needed: true }, { name: 'tmp', needed: false }]) // => { "kind": "header", "places": [1, -1] }
 * @example readHeader(['a', 'a'], [{ name: 'a', needed: true }]).faults[0].message // => "stands over columns 1 and 2; name one of them #1 or #2 in the profile"
 */
export function readHeader(cells: readonly string[], wanted: readonly WantedColumn[]): HeaderRead {
  const names = cells.map((cell) => cell.trim());
  const faults: HeaderFault[] = [];
  const places = wanted.map(({ name, needed }) => {
    const found = names.flatMap((each, place) => (each === name.trim() ? [place] : []));
    const numbered = Number(/^#(\d{1,4})$/.exec(name)?.[1] ?? 0) - 1;
    if (found.length === 0 && numbered >= 0 && numbered < names.length) return numbered;
    if (found.length === 0 && needed) faults.push({ column: name, message: `is missing; the file has ${shown(names)}` });
    if (found.length > 1) {
      const [first = 0, second = 0] = found;
      faults.push({
        column: name,
        message: `stands over columns ${first + 1} and ${second + 1}; name one of them #${first + 1} or #${second + 1} in the profile`,
      });
    }
    return found[0] ?? -1;
  });
  return faults.length > 0 ? { kind: 'bad-header', faults } : { kind: 'header', places };
}

function shown(names: readonly string[]): string {
  const few = names.slice(0, 30).map((name) => `"${name.slice(0, 60)}"`);
  return names.length > few.length ? `${few.join(', ')} and ${names.length - few.length} more` : few.join(', ');
}

export type CellMark = ',' | ';' | '\t';

/**
 * The mark between cells, judged by a header line: the one that stands there most often outside of quotes. Decimal commas do not occur in headers, so that
 * the guess is safe where the rows would mislead.
 *
 * @example guessMark('time;flow, m3/h;tmp') // => ";"
 */
export function guessMark(headerLine: string): CellMark {
  const bare = headerLine.replaceAll(/"[^"]*"/g, '');
  const counted = ([',', ';', '\t'] as const).map((mark) => ({ mark, count: bare.split(mark).length }));
  return counted.reduce((best, each) => (each.count > best.count ? each : best)).mark;
}
