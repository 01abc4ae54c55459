import { Injectable } from '@nestjs/common';
import {
  type Caller,
  Clock,
  Conflict,
  Database,
  faultIn,
  type KeyedRequest,
  KeyedWork,
  NotFound,
  type PageQuery,
  Recompute,
  readMomentCursor,
  runnerOf,
  toPage,
  viewOf,
} from '../../app/index.js';
import { SkidAccess } from '../../intake/index.js';
import { statedStrengthGL } from '../core/stated-strength.js';
import { type AssayDto, AssaysPageView, AssayView } from './assays.dto.js';
import type { TankAssay } from './records.repository.js';

/** Strengths measured in samples of a tank: from then on they go before what is reckoned. */
@Injectable()
export class Assays {
  constructor(
    private readonly access: SkidAccess,
    private readonly database: Database,
    private readonly work: KeyedWork,
    private readonly recompute: Recompute,
    private readonly clock: Clock,
  ) {}

  /** The latest first */
  async list(caller: Caller, tankId: string, { limit, cursor }: PageQuery): Promise<AssaysPageView> {
    const after = readMomentCursor(cursor);
    const rows = await this.database.readFor(caller, async (reader) => {
      if ((await reader.tank.count({ where: { id: tankId } })) === 0) throw new NotFound('tank', tankId);
      return reader.tankAssay.findMany({ where: { tankId, ...(after && { at: { lt: after } }) }, orderBy: { at: 'desc' }, take: limit + 1 });
    });
    return viewOf(
      AssaysPageView,
      toPage(rows, limit, assayView, ({ at }) => [at.getTime()]),
    );
  }

  async enter(caller: Caller, tankId: string, key: KeyedRequest, input: AssayDto): Promise<AssayView> {
    const skid = await this.access.toWriteTank(caller, tankId);
    const { value, basis, densityKgL = null, method, by = caller.name, note } = input;
    const [at, now] = [new Date(input.at), this.clock.now()];
    if (at > now) throw faultIn('at', `${input.at} lies in the future`);
    return this.work.run(key, async (tx) => {
      const tank = await tx.tank.findUniqueOrThrow({ where: { id: tankId }, select: { chemical: true, clientId: true } });
      const read = statedStrengthGL(tank.chemical, { value, basis, densityKgL });
      if (read.kind === 'fault') throw faultIn(read.field, read.message);
      if ((await tx.tankAssay.count({ where: { tankId, at } })) > 0) throw new Conflict(`There is an assay of ${at.toISOString()} already`);
      const { clientId } = tank;
      const row = await tx.tankAssay.create({
        data: { clientId, tankId, at, strengthGL: read.strengthGL, value, basis, densityKgL, method, by, note, enteredAt: now },
      });
      await this.recompute.later(skid.id, runnerOf(tx));
      return assayView(row);
    });
  }
}

function assayView({ id, at, strengthGL, value, basis, densityKgL, method, by, note }: TankAssay): AssayView {
  return viewOf(AssayView, { id, at, strengthGL, value, basis, densityKgL, method, by, note });
}
