import { Injectable } from '@nestjs/common';
import {
  type Caller,
  Clock,
  Conflict,
  Database,
  type FieldProblem,
  faultIn,
  InvalidRequest,
  type KeyedRequest,
  KeyedWork,
  NotFound,
  newId,
  type Reader,
  toPage,
  viewOf,
} from '../../app/index.js';
import { momentOf } from '../../registry/index.js';
import { type CountStanding, countStanding } from '../core/count-line.js';
import { quantityText } from '../core/quantity.js';
import { Ledger } from '../ledger.js';
import { mayMoveFrom } from '../own-van.js';
import {
  type CloseCountDto,
  CountDetailView,
  type CountDto,
  CountLineView,
  CountsPageView,
  type CountsQuery,
  CountView,
  type LinesQuery,
  type LooksDto,
} from './counts.dto.js';
import {
  addLines,
  addLooks,
  countsPage,
  endCount,
  holdCount,
  itemsThatAre,
  type LineRow,
  linesOf,
  looksOf,
  openCountOf,
  placeToCount,
  startCount,
} from './counts.repository.js';

/** Counts of what lies at a place: page by page, without seeing what the ledger says, with another look where a line is off. */
@Injectable()
export class Counts {
  constructor(
    private readonly database: Database,
    private readonly keyed: KeyedWork,
    private readonly ledger: Ledger,
    private readonly clock: Clock,
  ) {}

  async list(query: CountsQuery): Promise<CountsPageView> {
    const rows = await countsPage(this.database.prisma, query);
    return viewOf(
      CountsPageView,
      toPage(
        rows,
        query.limit,
        (row) => viewOf(CountView, row),
        ({ startedAt, id }) => [startedAt.toISOString(), id],
      ),
    );
  }

  read(id: string, query: LinesQuery): Promise<CountDetailView> {
    return detail(this.database.prisma, id, query);
  }

  start(caller: Caller, key: KeyedRequest, { placeId, blind, linesOnPage, note = '' }: CountDto): Promise<CountDetailView> {
    return this.keyed.run(key, async (tx) => {
      const place = await placeToCount(tx, placeId);
      if (place === null || place.endedOn !== null) throw faultIn('placeId', 'must be a place that has not ended');
      if (place.kind === 'transit' || place.kind === 'repair') throw faultIn('placeId', `what is at ${place.name} cannot be counted: nobody of us is there`);
      await mayMoveFrom(tx, caller, [placeId]);
      const running = await openCountOf(tx, placeId);
      if (running !== null) throw new Conflict(`${place.name} is being counted already, since ${running.startedBy} began: go on with that count, or drop it`);
      return detail(tx, await startCount(tx, { placeId, blind, linesOnPage, note, startedAt: this.clock.now(), startedBy: caller.name }), {});
    });
  }

  /** What somebody found, each at its moment. */
  look(caller: Caller, key: KeyedRequest, id: string, { looks }: LooksDto): Promise<CountDetailView> {
    return this.keyed.run(key, async (tx) => {
      await openCount(tx, caller, id);
      const now = this.clock.now();
      const lines = await linesOf(tx, id);
      const found = await findLines(tx, id, lines, looks);
      if (found.added.length > 0) await addLines(tx, found.added);
      const entered = looks.map(({ counted, at }, index) => ({
        lineId: found.ids[index] ?? '',
        counted,
        at: momentOf(at, now),
        enteredAt: now,
        byId: caller.id,
        by: caller.name,
      }));
      await addLooks(tx, entered);
      return detail(tx, id, {});
    });
  }

  /** Posts what two looks agree upon. Refused while a line has not been looked at, or asks for another look. */
  close(caller: Caller, id: string, input: CloseCountDto): Promise<CountDetailView> {
    return this.database.write(async (tx) => {
      const count = await holdCount(tx, id);
      if (count === null) throw new NotFound('count', id);
      if (count.state === 'closed' && (await this.ledger.isKnown(tx, { id: input.id, kind: 'count', asked: [id, input] }))) return detail(tx, id, {});
      await openCount(tx, caller, id);
      const judged = await standings(tx, id);
      const toDo = judged.filter(({ standing }) => standing.kind === 'open' || standing.kind === 'off');
      if (toDo.length > 0) {
        const named = toDo
          .slice(0, 5)
          .map(({ line, standing }) => `line ${line.no}, ${line.itemCode}, ${standing.kind === 'open' ? 'was not looked at' : 'is off'}`);
        throw new Conflict(`${toDo.length} lines ask for a look: ${named.join('; ')}${toDo.length > 5 ? ' and more' : ''}. Count them (once more), then close`);
      }
      const moves = judged.flatMap(({ line, standing }) => (standing.kind === 'settled' ? [correction(count.placeId, line, standing.difference)] : []));
      const at = this.clock.now();
      if (moves.length > 0) {
        const note = `Count of ${count.startedAt.toISOString().slice(0, 10)}${input.note ? `: ${input.note}` : ''}`;
        const posted = await this.ledger.post(tx, { id: input.id, kind: 'count', at, caller, note, moves, exact: true, asked: [id, input] });
        if (posted.kind === 'short') {
          const taken = posted.lines.map(({ itemCode, onHand }) => `${itemCode}: ${onHand} are left`);
          throw new Conflict(`More was taken since than was found there (${taken.join('; ')}). Count these lines once more`);
        }
      }
      await endCount(tx, id, { state: 'closed', endedAt: at, endedBy: caller.name, postId: moves.length > 0 ? input.id : null });
      return detail(tx, id, {});
    });
  }

  drop(caller: Caller, id: string): Promise<CountDetailView> {
    return this.database.write(async (tx) => {
      await openCount(tx, caller, id);
      await endCount(tx, id, { state: 'dropped', endedAt: this.clock.now(), endedBy: caller.name, postId: null });
      return detail(tx, id, {});
    });
  }
}

async function openCount(tx: Reader, caller: Caller, id: string) {
  const count = await holdCount(tx, id);
  if (count === null) throw new NotFound('count', id);
  await mayMoveFrom(tx, caller, [count.placeId]);
  if (count.state !== 'open') throw new Conflict(`This count is ${count.state}: start another one`);
  return count;
}

/** The line of each look; a new one for what is not on the list. */
async function findLines(tx: Reader, countId: string, lines: readonly LineRow[], looks: LooksDto['looks']) {
  const items = await itemsThatAre(
    tx,
    looks.flatMap(({ itemId }) => itemId ?? []),
  );
  const added: { id: string; countId: string; no: number; itemId: string; lot: string | null }[] = [];
  const problems: FieldProblem[] = [];
  const seen = new Set<string>();
  const ids = looks.map(({ lineId = null, itemId = null, lot = null }, at) => {
    const say = (field: string, message: string) => {
      problems.push({ pointer: `#/looks/${at}/${field}`, message });
      return '';
    };
    if ((lineId === null) === (itemId === null)) return say('lineId', 'say the line, or the item of something that is not on the list');
    if (itemId !== null && !items.has(itemId)) return say('itemId', 'there is no such item');
    const known = lines.find((line) =>
      lineId === null ? line.itemId === itemId && line.lot === lot && line.owner === 'us' && line.partId === null : line.id === lineId,
    );
    const again = added.find((line) => line.itemId === itemId && line.lot === lot);
    const id = known?.id ?? again?.id ?? (itemId === null ? null : newId());
    if (id === null) return say('lineId', 'there is no such line in this count');
    if (seen.has(id)) return say(lineId === null ? 'itemId' : 'lineId', 'this line stands here twice: enter one look at a time');
    seen.add(id);
    if (known === undefined && itemId !== null) added.push({ id, countId, no: lines.length + added.length + 1, itemId, lot });
    return id;
  });
  if (problems.length > 0) throw new InvalidRequest('Some looks need a change; none was entered', problems);
  return { ids, added };
}

const correction = (placeId: string, { itemId, lot, owner, ownerId, partId }: LineRow, difference: bigint) => ({
  itemId,
  lot,
  partId,
  owner: { kind: owner, id: ownerId },
  quantity: quantityText(difference < 0n ? -difference : difference),
  fromPlaceId: difference < 0n ? placeId : null,
  toPlaceId: difference < 0n ? null : placeId,
});

async function standings(reader: Reader, id: string): Promise<{ line: LineRow; standing: CountStanding; looks: { counted: string; book: string }[] }[]> {
  const [lines, looks] = [await linesOf(reader, id), await looksOf(reader, id)];
  return lines.map((line) => {
    const own = looks.filter(({ lineId }) => lineId === line.id);
    return { line, standing: countStanding(own), looks: own };
  });
}

async function detail(reader: Reader, id: string, { page, toDo }: LinesQuery): Promise<CountDetailView> {
  const [count] = await countsPage(reader, { limit: 1 }, id);
  if (count === undefined) throw new NotFound('count', id);
  const hidden = count.blind && count.state === 'open';
  const lines = (await standings(reader, id)).map(({ line, standing, looks }) => {
    const last = hidden ? undefined : looks.at(-1);
    return viewOf(CountLineView, {
      ...line,
      page: Math.ceil(line.no / count.linesOnPage),
      standing: standing.kind,
      looks: looks.length,
      counted: last?.counted ?? null,
      book: last?.book ?? null,
    });
  });
  const asked = lines.filter((line) => (page === undefined || line.page === page) && (toDo !== true || line.standing === 'open' || line.standing === 'off'));
  return viewOf(CountDetailView, { ...count, lines: asked });
}
