import type { Clock } from '../../app/index.js';
import type { TravelPlace, Way } from '../core/travel/travel-table.js';
import type { AskedRoads, MetRoads } from './travel-provider.js';

/** As many coordinates as services of this kind take in one request without being set up for more. */
const MOST_PLACES = 100;
const PATIENCE_MS = 5000;
/** A service that did not answer is left alone for so long. */
const REST_MS = 60_000;
const KEPT_MS = 24 * 60 * 60 * 1000;
const MOST_KEPT = 400;

type Block = readonly (Way | null)[];
type Asked = { readonly kind: 'ways'; readonly ways: Block } | { readonly kind: 'refused' | 'silent'; readonly fault: string };

/**
 * A service that answers GET /table/v1/driving/lon,lat;lon,lat as the open OSRM server does: durations in seconds and distances in metres, row by row, null for a hole. Asked
 * in blocks; what it answered is kept for a day.
 */
export class RoadTable {
  private readonly kept = new Map<string, { readonly ways: Block; readonly at: number }>();
  private silentUntil = 0;
  private silence = '';
  private lastMet: MetRoads = { askedAt: null, answeredAt: null, said: null };

  constructor(
    private readonly address: string,
    private readonly clock: Clock,
    private readonly patienceMs = PATIENCE_MS,
  ) {}

  get met(): MetRoads {
    return this.lastMet;
  }

  async ask(places: readonly TravelPlace[]): Promise<AskedRoads> {
    const count = places.length;
    const ways: (Way | null)[] = Array.from({ length: count * count }, () => null);
    const size = count <= MOST_PLACES ? Math.max(1, count) : MOST_PLACES / 2;
    const starts = Array.from({ length: Math.ceil(count / size) }, (_, at) => at * size);
    let fault: string | null = null;
    for (const from of starts) {
      for (const to of starts) {
        const [rows, columns] = [places.slice(from, from + size), places.slice(to, to + size)];
        const asked = await this.block(rows, columns, from === to);
        if (asked.kind !== 'ways') fault ??= asked.fault;
        else
          for (const [at, way] of asked.ways.entries()) {
            const [row, column] = [from + Math.floor(at / columns.length), to + (at % columns.length)];
            if (row !== column) ways[row * count + column] = way;
          }
      }
    }
    const holes = ways.filter((way, at) => way === null && Math.floor(at / count) !== at % count).length;
    if (holes === 0) return { ways, fault: null };
    const ofAll = `${holes} of ${count * (count - 1)} ways are estimated by distance`;
    return { ways, fault: fault === null ? `The road table knows no way between some places: ${ofAll}` : `${fault}: ${ofAll}` };
  }

  private async block(rows: readonly TravelPlace[], columns: readonly TravelPlace[], isSame: boolean): Promise<Asked> {
    if (rows.length * columns.length === 1 && isSame) return { kind: 'ways', ways: [null] };
    const path = pathOf(rows, columns, isSame);
    const now = this.clock.now().getTime();
    const kept = this.kept.get(path);
    if (kept !== undefined && now - kept.at < KEPT_MS) return { kind: 'ways', ways: kept.ways };
    if (now < this.silentUntil) return { kind: 'silent', fault: this.silence };
    const asked = await this.fetched(path, rows.length, columns.length);
    const answeredAt = asked.kind === 'silent' ? this.lastMet.answeredAt : this.clock.now();
    this.lastMet = { askedAt: this.clock.now(), answeredAt, said: asked.kind === 'ways' ? null : asked.fault };
    if (asked.kind === 'silent') {
      this.silentUntil = now + REST_MS;
      this.silence = asked.fault;
    }
    if (asked.kind === 'ways') this.keep(path, asked.ways, now);
    return asked;
  }

  private async fetched(path: string, rows: number, columns: number): Promise<Asked> {
    const signal = AbortSignal.timeout(this.patienceMs);
    try {
      const answer = await fetch(`${this.address}${path}`, { signal, redirect: 'error' });
      const body: unknown = await answer.json().catch(() => null);
      const { code, durations, distances } = (typeof body === 'object' && body !== null ? body : {}) as Record<string, unknown>;
      if (code !== 'Ok') {
        const said = typeof code === 'string' ? code.slice(0, 40) : `HTTP ${answer.status}`;
        return { kind: answer.status >= 500 ? 'silent' : 'refused', fault: `The road table refused (${said})` };
      }
      const [seconds, metres] = [cells(durations, rows, columns), cells(distances, rows, columns)];
      if (seconds === null || metres === null) return { kind: 'refused', fault: 'The road table answered in a form that is not known' };
      return { kind: 'ways', ways: seconds.map((each, at) => wayOf(each, metres[at])) };
    } catch {
      const why = signal.aborted ? `within ${this.patienceMs / 1000} s` : 'at its address';
      return { kind: 'silent', fault: `The road table does not answer ${why}` };
    }
  }

  private keep(path: string, ways: Block, at: number): void {
    this.kept.delete(path);
    this.kept.set(path, { ways, at });
    const [oldest] = this.kept.keys();
    if (this.kept.size > MOST_KEPT && oldest !== undefined) this.kept.delete(oldest);
  }
}

function pathOf(rows: readonly TravelPlace[], columns: readonly TravelPlace[], isSame: boolean): string {
  const all = isSame ? rows : [...rows, ...columns];
  const coordinates = all.map(({ latitude, longitude }) => `${longitude.toFixed(6)},${latitude.toFixed(6)}`).join(';');
  const numbers = (from: number, count: number) => Array.from({ length: count }, (_, at) => from + at).join(';');
  const part = isSame ? '' : `&sources=${numbers(0, rows.length)}&destinations=${numbers(rows.length, columns.length)}`;
  return `/table/v1/driving/${coordinates}?annotations=duration,distance${part}`;
}

/** The cells of a table in one row; null: not a table of this size. */
function cells(table: unknown, rows: number, columns: number): unknown[] | null {
  if (!Array.isArray(table) || table.length !== rows) return null;
  return table.every((row) => Array.isArray(row) && row.length === columns) ? table.flat() : null;
}

function wayOf(seconds: unknown, metres: unknown): Way | null {
  const isLength = (value: unknown): value is number => typeof value === 'number' && Number.isFinite(value) && value >= 0;
  return isLength(seconds) && isLength(metres) ? { minutes: seconds / 60, km: metres / 1000 } : null;
}
