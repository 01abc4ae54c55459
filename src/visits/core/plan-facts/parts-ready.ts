import { group, max, rollup, sum } from 'd3-array';
import type { Day } from '../../../shared/day.js';

/** A piece of work with what it takes. */
export interface PartsOfWork {
  readonly key: string;
  readonly siteId: string;
  /** Reservations of this job are its own */
  readonly jobId: string | null;
  /** By which it is wanted; null: whenever there is time */
  readonly wantedOn: Day | null;
  readonly parts: readonly { readonly itemId: string; readonly name: string; readonly quantity: number }[];
}

interface At {
  readonly itemId: string;
  /** For work at this site alone; null: for any */
  readonly siteId: string | null;
  readonly quantity: number;
}

export interface PartsAhead {
  readonly there: readonly At[];
  readonly reserved: readonly (At & { readonly jobId: string | null })[];
  readonly coming: readonly (At & { readonly day: Day | null })[];
  /** Of other items nobody says how many there are: no work waits for them */
  readonly known: ReadonlySet<string>;
}

/** `there`: all of it, now. `from`: the last of it comes on that day. `missing`: it is neither there nor on its way with a day. */
export type PartsReady = { readonly kind: 'there' } | { readonly kind: 'from'; readonly day: Day } | { readonly kind: 'missing'; readonly parts: string };

interface Batch {
  /** Null: there now */
  readonly day: Day | null;
  readonly siteId: string | null;
  left: number;
}

/**
 * From which day on each piece of work has its parts: what is wanted first takes first, from what lies at its site, then from what is there, then from what comes, the
 * earliest first. What others have reserved is not there; what comes without a day is not counted. Work whose parts are not all found takes none.
 */
export function partsReady(work: readonly PartsOfWork[], { there, reserved, coming, known }: PartsAhead): Map<string, PartsReady> {
  const batches = new Map<string, Batch[]>();
  const add = (itemId: string, batch: Batch) => batches.set(itemId, [...(batches.get(itemId) ?? []), batch]);
  for (const { itemId, siteId, quantity } of free(there, reserved)) add(itemId, { day: null, siteId, left: quantity });
  for (const { itemId, siteId, quantity, day } of [...coming].sort((a, b) => ((a.day ?? '') < (b.day ?? '') ? -1 : 1)))
    if (day !== null) add(itemId, { day, siteId, left: quantity });
  const own = rollup(
    reserved,
    (rows) => sum(rows, ({ quantity }) => quantity),
    ({ jobId, itemId }) => `${jobId} ${itemId}`,
  );
  const ready = new Map<string, PartsReady>();
  for (const item of [...work].sort(firstWanted)) {
    const taken = item.parts
      .filter(({ itemId }) => known.has(itemId))
      .map((part) => ({ ...part, ...takeOf(batches.get(part.itemId) ?? [], item.siteId, part.quantity - (own.get(`${item.jobId} ${part.itemId}`) ?? 0)) }));
    const short = taken.filter(({ missing }) => missing > 1e-9);
    if (short.length > 0) ready.set(item.key, { kind: 'missing', parts: short.map(({ name, missing }) => `${numeral(missing)} × ${name}`).join(', ') });
    else {
      for (const { takes } of taken) for (const { batch, quantity } of takes) batch.left -= quantity;
      ready.set(item.key, lastOf(taken));
    }
  }
  return ready;
}

/** Stock less what is reserved of it, place by place of the same kind. */
const free = (there: readonly At[], reserved: readonly At[]): At[] =>
  [...group([...there, ...reserved.map((row) => ({ ...row, quantity: -row.quantity }))], ({ itemId, siteId }) => `${itemId} ${siteId}`).values()].flatMap(
    (rows) => {
      const [first] = rows;
      const quantity = sum(rows, (row) => row.quantity);
      return first === undefined || quantity <= 0 ? [] : [{ itemId: first.itemId, siteId: first.siteId, quantity }];
    },
  );

const firstWanted = (a: PartsOfWork, b: PartsOfWork) => ((a.wantedOn ?? '9999') + a.key < (b.wantedOn ?? '9999') + b.key ? -1 : 1);

function takeOf(batches: readonly Batch[], siteId: string, wanted: number) {
  const takes: { batch: Batch; quantity: number }[] = [];
  let missing = Math.max(0, wanted);
  const here = batches.filter((batch) => batch.siteId === null || batch.siteId === siteId);
  const order = [...here].sort((a, b) => (a.day ?? '').localeCompare(b.day ?? '') || Number(a.siteId === null) - Number(b.siteId === null));
  for (const batch of order) {
    const quantity = Math.min(batch.left, missing);
    if (quantity <= 0) continue;
    takes.push({ batch, quantity });
    missing -= quantity;
  }
  return { takes, missing };
}

function lastOf(taken: readonly { readonly takes: readonly { readonly batch: Batch }[] }[]): PartsReady {
  const day = max(taken.flatMap(({ takes }) => takes.flatMap(({ batch }) => batch.day ?? [])));
  return day === undefined ? { kind: 'there' } : { kind: 'from', day };
}

const numeral = (quantity: number) => String(Math.round(quantity * 1000) / 1000);
