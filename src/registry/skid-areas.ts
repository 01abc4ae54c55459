import { Injectable } from '@nestjs/common';
import { Database, NotFound, type Reader, Recompute, runnerOf } from '../app/index.js';
import type { SkidAreaDto } from './skids.dto.js';
import { removeArea, setArea, skidRecords } from './skids.repository.js';

/** The active membrane area of a skid, which changes when modules are isolated or added. Fluxes of a day use the area of that day. */
@Injectable()
export class SkidAreas {
  constructor(
    private readonly database: Database,
    private readonly recompute: Recompute,
  ) {}

  set(skidId: string, area: SkidAreaDto): Promise<void> {
    return this.database.write((tx) => this.within(tx, skidId, area));
  }

  /** In the transaction of the work that changes the area. */
  async within(tx: Reader, skidId: string, { fromDay, areaM2 }: SkidAreaDto): Promise<void> {
    await skidRecords.find(tx, skidId);
    await setArea(tx, skidId, fromDay, areaM2);
    await this.recompute.later(skidId, runnerOf(tx));
  }

  /** Takes back an entry with a wrong day. */
  remove(skidId: string, fromDay: string): Promise<void> {
    return this.database.write(async (tx) => {
      if (!(await removeArea(tx, skidId, fromDay))) throw new NotFound('area of this skid from', fromDay);
      await this.recompute.later(skidId, runnerOf(tx));
    });
  }
}
