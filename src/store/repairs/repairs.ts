import { Injectable } from '@nestjs/common';
import { type Caller, Clock, Conflict, Database, faultIn, NotFound, type Reader, toPage, viewOf } from '../../app/index.js';
import { dateOf, dayOf, momentOf } from '../../registry/index.js';
import { Ledger } from '../ledger.js';
import type { Posted } from '../ledger-post.js';
import { NotOnHand, PostIdUsed } from '../store.errors.js';
import { type RepairBackDto, RepairsPageView, type RepairsQuery, RepairView, type SendForRepairDto } from './repairs.dto.js';
import { countersOf, endRepair, enterRepair, holdRepair, openRepairOf, partToSend, placeOfRepair, repairsPage } from './repairs.repository.js';

/** Parts that go out to whoever repairs them and come back, with what their counters showed. */
@Injectable()
export class Repairs {
  constructor(
    private readonly database: Database,
    private readonly ledger: Ledger,
    private readonly clock: Clock,
  ) {}

  async list(query: RepairsQuery): Promise<RepairsPageView> {
    const rows = await repairsPage(this.database.prisma, query, dayOf(this.clock.now()));
    return viewOf(
      RepairsPageView,
      toPage(
        rows,
        query.limit,
        (row) => viewOf(RepairView, row),
        ({ sentAt, id }) => [sentAt.toISOString(), id],
      ),
    );
  }

  read(id: string): Promise<RepairView> {
    return this.readIn(this.database.prisma, id);
  }

  send(caller: Caller, { id, partId, fromPlaceId, repairPlaceId, at, expectedOn = null, fault }: SendForRepairDto): Promise<RepairView> {
    return this.database.write(async (tx) => {
      const part = await partToSend(tx, partId);
      if (part === null) throw faultIn('partId', 'there is no such part');
      const { itemId, serialNumber, setCount } = part;
      if (serialNumber === null || setCount !== 1)
        throw faultIn('partId', 'must be one piece under a serial number: what has none cannot be told apart when it comes back');
      const repairer = await placeOfRepair(tx, repairPlaceId);
      if (repairer?.kind !== 'repair')
        throw faultIn('repairPlaceId', repairer === null ? 'there is no such place' : `${repairer.name} repairs nothing: choose a place of kind repair`);
      const sentAt = momentOf(at, this.clock.now());
      const counters = await countersOf(tx, partId);
      const day = expectedOn === null ? null : dateOf(expectedOn);
      await enterRepair(tx, { id, itemId, partId, fromPlaceId, repairPlaceId, sentAt, sentBy: caller.name, expectedOn: day, fault, counters });
      const repair = await holdRepair(tx, id);
      if (repair === null) throw await alreadyOut(tx, partId, serialNumber);
      const isSame = repair.partId === partId && repair.fromPlaceId === fromPlaceId && repair.repairPlaceId === repairPlaceId;
      if (!isSame) throw new PostIdUsed('A repair with this id is of another part, or between other places. Make a new id for another repair');
      const moves = [{ itemId, lot: null, partId, quantity: '1', fromPlaceId, toPlaceId: repairPlaceId }];
      const posted = await this.ledger.post(tx, { id, kind: 'repair', at: sentAt, caller, note: fault, moves, expiredReason: fault });
      refuseMissing(posted, `serial number ${serialNumber} of ${part.item.code} is not there by the ledger: enter that it was taken back first`, '#/partId');
      return this.readIn(tx, id);
    });
  }

  back(caller: Caller, id: string, input: RepairBackDto): Promise<RepairView> {
    const { at, outcome, placeId = null, done = '' } = input;
    const isScrapped = outcome === 'scrapped';
    if (isScrapped !== (placeId === null))
      throw faultIn('placeId', isScrapped ? 'what is scrapped there comes to no place: leave it out' : 'say where it lies from now on');
    if ((isScrapped || outcome === 'not repaired') && done.trim() === '') throw faultIn('done', 'say why: it is asked about later');
    return this.database.write(async (tx) => {
      const repair = await holdRepair(tx, id);
      if (repair === null) throw new NotFound('repair', id);
      if (await this.ledger.isKnown(tx, { id: input.id, kind: isScrapped ? 'scrap' : 'repaired', asked: input })) return this.readIn(tx, id);
      if (repair.backAt !== null) throw new Conflict(`This repair has ended: ${repair.outcome} on ${dayOf(repair.backAt)}`);
      const backAt = momentOf(at, this.clock.now());
      if (backAt < repair.sentAt) throw faultIn('at', `must not be before it left, ${repair.sentAt.toISOString()}`);
      const { itemId, partId, repairPlaceId } = repair;
      const moves = [{ itemId, lot: null, partId, quantity: '1', fromPlaceId: repairPlaceId, toPlaceId: placeId }];
      const post = { id: input.id, at: backAt, caller, note: done, moves, expiredReason: done === '' ? outcome : done, asked: input };
      const posted = await this.ledger.post(tx, { ...post, kind: isScrapped ? 'scrap' : 'repaired' });
      refuseMissing(posted, `serial number ${repair.part.serialNumber} is not at the repairer by the ledger: correct the stock there first`, '#/outcome');
      await endRepair(tx, id, { backAt, backBy: caller.name, outcome, done });
      return this.readIn(tx, id);
    });
  }

  private async readIn(reader: Reader, id: string): Promise<RepairView> {
    const [row] = await repairsPage(reader, { limit: 1 }, dayOf(this.clock.now()), id);
    if (row === undefined) throw new NotFound('repair', id);
    return viewOf(RepairView, row);
  }
}

async function alreadyOut(tx: Reader, partId: string, serialNumber: string): Promise<Conflict> {
  const open = await openRepairOf(tx, partId);
  const where = open === null ? '' : ` at ${open.repairPlace.name} since ${dayOf(open.sentAt)}`;
  return new Conflict(`Serial number ${serialNumber} is out for repair already${where}. Enter how it came back first`);
}

function refuseMissing(posted: Posted, message: string, pointer: string): void {
  if (posted.kind === 'short') throw new NotOnHand('The part is not where it would be taken from; nothing was moved', [{ pointer, message }]);
}
