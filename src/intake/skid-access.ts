import { Injectable } from '@nestjs/common';
import { type Caller, NotFound } from '../app/index.js';
import { NotYourSite } from './intake.errors.js';
import { type SkidPlace, SkidsRepository } from './repositories/skids.repository.js';

/** Whose readings a caller may see and enter. */
@Injectable()
export class SkidAccess {
  constructor(private readonly skids: SkidsRepository) {}

  async toRead(caller: Caller, skidId: string): Promise<SkidPlace> {
    const skid = await this.skids.find(caller, skidId);
    if (skid === null) throw new NotFound('skid', skidId);
    return skid;
  }

  /** Staff write to every skid, a gateway to those of its site, an operator of a client to those of the own site. */
  async toWrite(caller: Caller, skidId: string): Promise<SkidPlace> {
    const skid = await this.toRead(caller, skidId);
    if (caller.role === 'client' && !caller.mayEnterReadings) throw new NotYourSite('This account may see readings and enter none');
    if (caller.role === 'gateway' ? skid.siteId !== caller.siteId : caller.siteId !== null && skid.siteId !== caller.siteId) {
      throw new NotYourSite(`${skid.name} does not stand at your site`);
    }
    return skid;
  }

  async toWriteTank(caller: Caller, tankId: string): Promise<SkidPlace> {
    const skidId = await this.skids.skidOfTank(caller, tankId);
    if (skidId === null) throw new NotFound('tank', tankId);
    return this.toWrite(caller, skidId);
  }

  async toWriteMeter(caller: Caller, meterId: string): Promise<SkidPlace> {
    const skidId = await this.skids.skidOfMeter(caller, meterId);
    if (skidId === null) throw new NotFound('meter', meterId);
    return this.toWrite(caller, skidId);
  }
}
