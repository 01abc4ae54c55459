import { Injectable } from '@nestjs/common';
import { type Caller, Clock, Conflict, faultIn, type KeyedRequest, KeyedWork, NotFound, Recompute, runnerOf } from '../app/index.js';
import { toFittingView } from './fitting-history.js';
import type { FittingView, RemovePartDto } from './fittings.dto.js';
import { closeFitting, findFitting } from './fittings.repository.js';
import { momentOf } from './moment.js';

/** Removes a part from its position, which stays empty. */
@Injectable()
export class RemovePart {
  constructor(
    private readonly work: KeyedWork,
    private readonly recompute: Recompute,
    private readonly clock: Clock,
  ) {}

  run(caller: Caller, key: KeyedRequest, fittingId: string, { reason, at }: RemovePartDto): Promise<FittingView> {
    const removedAt = momentOf(at, this.clock.now());
    return this.work.run(key, async (tx) => {
      const fitting = await findFitting(tx, fittingId);
      if (fitting === null) throw new NotFound('fitting', fittingId);
      if (removedAt <= fitting.fittedAt) throw faultIn('at', `must be after the part was fitted, ${fitting.fittedAt.toISOString()}`);
      const closed = await closeFitting(tx, fittingId, { removedAt, removedBy: caller.name, removalReason: reason });
      if (closed === null) throw new Conflict('The part was removed already');
      await this.recompute.later(fitting.position.skidId, runnerOf(tx));
      return toFittingView(closed);
    });
  }
}
