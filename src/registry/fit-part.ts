import { Injectable } from '@nestjs/common';
import { type Caller, Clock, Conflict, faultIn, type KeyedRequest, KeyedWork, NotFound, type Reader, Recompute, runnerOf } from '../app/index.js';
import { isTakenFrom } from './core/fitting-times.js';
import { toFittingView } from './fitting-history.js';
import type { FitPartDto, FittingView } from './fittings.dto.js';
import { closeFitting, createFitting, isItem, lockPart, lockPosition, partOfItem } from './fittings.repository.js';
import { momentOf } from './moment.js';

/** Fits a part in a position; where one is there already, replaces it. */
@Injectable()
export class FitPart {
  constructor(
    private readonly work: KeyedWork,
    private readonly recompute: Recompute,
    private readonly clock: Clock,
  ) {}

  run(caller: Caller, key: KeyedRequest, positionId: string, input: FitPartDto): Promise<FittingView> {
    const at = momentOf(input.at, this.clock.now());
    return this.work.run(key, async (tx) => {
      const position = await lockPosition(tx, positionId);
      if (position === null) throw new NotFound('position', positionId);
      if (position.endedOn !== null || position.skid.endedOn !== null) throw new Conflict('The position or its skid has ended');
      const part = await this.part(tx, input);
      const present = position.fittings.find(({ removedAt }) => removedAt === null);
      await this.makeRoom(tx, present, at, input.removalReason, caller);
      if (
        isTakenFrom(
          at,
          position.fittings.filter((fitting) => fitting !== present),
        )
      )
        throw faultIn('at', 'the position held another part after that moment');
      if (
        isTakenFrom(
          at,
          part.fittings.filter(({ id }) => id !== present?.id),
        )
      ) {
        const where = part.fittings.find(({ removedAt }) => removedAt === null)?.position.name;
        throw where === undefined
          ? faultIn('at', 'the part was fitted elsewhere after that moment')
          : new Conflict(`The part is fitted in ${where}. Remove it there first`);
      }
      const { clientId, skidId } = position;
      const fitting = await createFitting(tx, { clientId, positionId, partId: part.id, fittedAt: at, fittedBy: caller.name });
      await this.recompute.later(skidId, runnerOf(tx));
      return toFittingView(fitting);
    });
  }

  private async part(tx: Reader, { partId, itemId, serialNumber, setCount = 1, lot }: FitPartDto) {
    if (partId !== undefined && (itemId !== undefined || serialNumber !== undefined || setCount !== 1 || lot !== undefined)) {
      throw faultIn('partId', 'a part that is known is told by its id alone: leave out itemId, serialNumber, setCount and lot');
    }
    if (serialNumber !== undefined && setCount !== 1) throw faultIn('setCount', 'a serial number is of one piece: leave one of the two out');
    if (itemId !== undefined && !(await isItem(tx, itemId))) throw faultIn('itemId', 'there is no such item');
    const part = await lockPart(
      tx,
      itemId === undefined ? (partId ?? '') : await partOfItem(tx, { itemId, serialNumber: serialNumber ?? null, setCount, lot: lot ?? null }),
    );
    if (part === null) throw faultIn('partId', 'there is no such part');
    return part;
  }

  private async makeRoom(
    tx: Reader,
    present: { id: string; fittedAt: Date } | undefined,
    at: Date,
    removalReason: string | undefined,
    caller: Caller,
  ): Promise<void> {
    if (present === undefined) {
      if (removalReason !== undefined) throw faultIn('removalReason', 'no part is fitted here: leave it out');
      return;
    }
    if (removalReason === undefined) throw new Conflict('A part is fitted here already. Say in removalReason why it is removed, and it is replaced');
    if (at <= present.fittedAt) throw faultIn('at', `must be after the part that is there was fitted, ${present.fittedAt.toISOString()}`);
    await closeFitting(tx, present.id, { removedAt: at, removedBy: caller.name, removalReason });
  }
}
