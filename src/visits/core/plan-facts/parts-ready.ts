import { group, max, sum } from 'd3-array';
import { type Day, dayPlus } from '../../../shared/day.js';
import { weekday } from './local-time.js';

/** Two people have to meet, or one leaves it at a store: what lies in a van is with somebody else so many working days later. Common practice. */
const HANDOVER_WORKING_DAYS = 1;
const FRIDAY = 5;

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

/** Whose van it is. */
interface VanOf {
  readonly personId: string;
  readonly name: string;
}

interface At {
  readonly itemId: string;
  /** For work at this site alone; null: for any */
  readonly siteId: string | null;
  /** Until it is handed over, for this person alone; null: for anybody */
  readonly van: VanOf | null;
  readonly quantity: number;
}

export interface PartsAhead {
  readonly there: readonly At[];
  readonly reserved: readonly (At & { readonly jobId: string | null })[];
  readonly coming: readonly (At & { readonly day: Day | null })[];
  /** Of other items nobody says how many there are: no work waits for them */
  readonly known: ReadonlySet<string>;
}

/** A van that parts are taken from, and the day from which on its person has all of them; null: now. */
export interface PartsInVan extends VanOf {
  readonly fromOn: Day | null;
}

/**
 * `there`: all of it, for anybody, now. `from`: the last of it comes, or can be handed over to anybody, on that day; those whose vans hold some of it have it no later. `missing`: it is
 * neither there nor on its way with a day.
 */
export type PartsReady =
  | { readonly kind: 'there' }
  | { readonly kind: 'from'; readonly day: Day; readonly vans: readonly PartsInVan[] }
  | { readonly kind: 'missing'; readonly parts: string };

interface Batch {
  /** Null: there now */
  readonly day: Day | null;
  readonly siteId: string | null;
  readonly van: VanOf | null;
  /** Reserved for this job; null: for nobody */
  readonly jobId: string | null;
  left: number;
}

/**
 * From which day on each piece of work has its parts: what is wanted first takes first, from what is reserved for it, from what lies at its site, then from the stores, then from vans, the
 * one first that holds the most of it, then from what comes, the earliest first. What others have reserved is not there; what comes without a day is not counted. What lies in a van is
 * there at once for its person, for others after a hand-over. Work whose parts are not all found takes none.
 */
export function partsReady(work: readonly PartsOfWork[], { there, reserved, coming, known }: PartsAhead, today: Day): Map<string, PartsReady> {
  const batches = new Map<string, Batch[]>();
  const add = (itemId: string, batch: Batch) => batches.get(itemId)?.push(batch) ?? batches.set(itemId, [batch]);
  // Who reserved it takes it from there, wherever it lies.
  for (const { itemId, van, quantity, jobId } of reserved) if (jobId !== null) add(itemId, { day: null, siteId: null, van, jobId, left: quantity });
  for (const { itemId, siteId, van, quantity } of free(there, reserved)) add(itemId, { day: null, siteId, van, jobId: null, left: quantity });
  for (const { itemId, siteId, van, quantity, day } of coming) if (day !== null) add(itemId, { day, siteId, van, jobId: null, left: quantity });
  for (const ofItem of batches.values()) ofItem.sort(firstTaken);
  const ready = new Map<string, PartsReady>();
  for (const item of [...work].sort(firstWanted)) {
    const parts = item.parts
      .filter(({ itemId }) => known.has(itemId))
      .map((part) => ({ ...part, batches: (batches.get(part.itemId) ?? []).filter((batch) => isFor(batch, item)) }));
    let shares: ReadonlyMap<string, number> | undefined;
    const sharesOf = () => (shares ??= sharesOfVans(parts));
    const taken = parts.map((part) => ({ ...part, ...takeOf(part.batches, part.quantity, sharesOf) }));
    const short = taken.filter(({ missing }) => missing > 1e-9);
    if (short.length > 0) ready.set(item.key, { kind: 'missing', parts: short.map(({ name, missing }) => `${numeral(missing)} × ${name}`).join(', ') });
    else {
      const takes = taken.flatMap((part) => part.takes);
      for (const { batch, quantity } of takes) batch.left -= quantity;
      ready.set(
        item.key,
        readyOf(
          takes.map(({ batch }) => batch),
          today,
        ),
      );
    }
  }
  return ready;
}

const isFor = (batch: Batch, { siteId, jobId }: PartsOfWork) =>
  batch.left > 0 && (batch.siteId === null || batch.siteId === siteId) && (batch.jobId === null || batch.jobId === jobId);

/** Stock less what is reserved of it, place by place of the same kind. */
const free = (there: readonly At[], reserved: readonly At[]): At[] =>
  [
    ...group(
      [...there, ...reserved.map((row) => ({ ...row, quantity: -row.quantity }))],
      ({ itemId, siteId, van }) => `${itemId} ${siteId} ${van?.personId}`,
    ).values(),
  ].flatMap((rows) => {
    const [first] = rows;
    const quantity = sum(rows, (row) => row.quantity);
    return first === undefined || quantity <= 0 ? [] : [{ itemId: first.itemId, siteId: first.siteId, van: first.van, quantity }];
  });

const firstWanted = (a: PartsOfWork, b: PartsOfWork) => ((a.wantedOn ?? '9999') + a.key < (b.wantedOn ?? '9999') + b.key ? -1 : 1);

/** How much of the parts each van holds, by whose it is: each part counts as one. */
function sharesOfVans(parts: readonly { readonly quantity: number; readonly batches: readonly Batch[] }[]): ReadonlyMap<string, number> {
  const shares = new Map<string, number>();
  for (const { quantity, batches } of parts) {
    for (const { van, day, left } of batches)
      if (van !== null && day === null) shares.set(van.personId, (shares.get(van.personId) ?? 0) + Math.min(1, left / quantity));
  }
  return shares;
}

/** What is reserved, then what lies at the site, in a store, in a van, and what comes, day by day; vans are put in order by what else they hold. */
function firstTaken(a: Batch, b: Batch): number {
  if ((a.jobId === null) !== (b.jobId === null)) return a.jobId === null ? 1 : -1;
  if (a.day !== b.day) return (a.day ?? '') < (b.day ?? '') ? -1 : 1;
  return Number(a.van !== null) - Number(b.van !== null) || Number(a.siteId === null) - Number(b.siteId === null);
}

const isVanNow = ({ van, day, jobId }: Batch) => van !== null && day === null && jobId === null;

/** @param sharesOf asked for only where a van is needed: most work finds its parts in a store */
function takeOf(batches: readonly Batch[], wanted: number, sharesOf: () => ReadonlyMap<string, number>) {
  const takes: { batch: Batch; quantity: number }[] = [];
  let missing = wanted;
  const take = (batch: Batch) => {
    const quantity = Math.min(batch.left, missing);
    if (quantity <= 0) return;
    takes.push({ batch, quantity });
    missing -= quantity;
  };
  const vans = batches.findIndex(isVanNow);
  const rest = vans < 0 ? batches.length : vans;
  for (const batch of batches.slice(0, rest)) take(batch);
  if (missing > 0 && vans >= 0) {
    const shares = sharesOf();
    const shareOf = ({ van }: Batch) => shares.get(van?.personId ?? '') ?? 0;
    for (const batch of batches.filter(isVanNow).sort((a, b) => shareOf(b) - shareOf(a) || b.left - a.left)) take(batch);
    for (const batch of batches.slice(rest).filter((each) => !isVanNow(each))) take(batch);
  }
  return { takes, missing };
}

function readyOf(batches: readonly Batch[], today: Day): PartsReady {
  const dayFor = (personId: string | null) =>
    max(batches, ({ day, van }) => (van === null || van.personId === personId ? (day ?? undefined) : handedOverOn(day ?? today)));
  const day = dayFor(null);
  if (day === undefined) return { kind: 'there' };
  const vans = new Map(batches.flatMap(({ van }) => (van === null ? [] : [[van.personId, van] as const])));
  return { kind: 'from', day, vans: [...vans.values()].map(({ personId, name }) => ({ personId, name, fromOn: dayFor(personId) ?? null })) };
}

function handedOverOn(day: Day): Day {
  let [on, left] = [day, HANDOVER_WORKING_DAYS];
  while (left > 0) {
    on = dayPlus(on, 1);
    if (weekday(on) <= FRIDAY) left -= 1;
  }
  return on;
}

const numeral = (quantity: number) => String(Math.round(quantity * 1000) / 1000);
