import { Injectable } from '@nestjs/common';
import { Database, NotFound, Recompute, runnerOf } from '../app/index.js';
import type { SkidAreaDto } from './skids.dto.js';
import { removeArea, setArea, skidRecords } from './skids.repository.js';

/** The active membrane area of a skid, which changes when modules are isolated or added. Fluxes of a day use the area of that day. */
@Injectable()
export class SkidAreas {
  constructor(
    private readonly database: Database,
    private readonly recompute: Recompute,
  ) {}

  set(skidId: string, { fromDay, areaM2 }: SkidAreaDto): Promise<void> {
    return this.database.write(async (tx) => {
      await skidRecords.find(tx, skidId);
      await setArea(tx, skidId, fromDay, areaM2);
      await this.recompute.later(skidId, runnerOf(tx));
    });
  }

  /** Takes back an entry with a wrong day. */
  remove(skidId: string, fromDay: string): Promise<void> {
    return this.database.write(async (tx) => {
      if (!(await removeArea(tx, skidId, fromDay))) throw new NotFound('area of this skid from', fromDay);
      await this.recompute.later(skidId, runnerOf(tx));
    });
  }
}
