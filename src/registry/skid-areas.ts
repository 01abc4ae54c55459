import { Injectable } from '@nestjs/common';
import { Database, NotFound, type Reader, Recompute, runnerOf } from '../app/index.js';
import type { SkidAreaDto } from './skids.dto.js';
import { removeArea, setArea, shrinkArea, skidRecords } from './skids.repository.js';

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

  /**
   * Takes so much off the area from a day on, later entries included; a negative number gives it back. In the transaction of the work that does it. Answers whether there was an area
   * to take it from, and none left at 0 or less: else nothing is changed.
   */
  async shrink(tx: Reader, skidId: string, { fromDay, byM2 }: { fromDay: string; byM2: number }): Promise<boolean> {
    const done = await shrinkArea(tx, skidId, fromDay, byM2);
    if (done) await this.recompute.later(skidId, runnerOf(tx));
    return done;
  }

  /** Takes back an entry with a wrong day. */
  remove(skidId: string, fromDay: string): Promise<void> {
    return this.database.write(async (tx) => {
      if (!(await removeArea(tx, skidId, fromDay))) throw new NotFound('area of this skid from', fromDay);
      await this.recompute.later(skidId, runnerOf(tx));
    });
  }
}
