import { Injectable } from '@nestjs/common';
import { type Caller, Clock, Database, faultIn, InvalidRequest, type KeyedRequest, KeyedWork, NotFound, viewOf } from '../app/index.js';
import type { Severity } from '../shared/work.js';
import { findSkidOfWork, isPositionOf, openJob } from './breakdown-rows.repository.js';
import { type AskDto, AskedView } from './breakdowns.dto.js';
import { timesAtOdds } from './core/breakdown/times-at-odds.js';
import { JobHooks } from './job-hooks.js';

/** Reports a breakdown, or asks for something: the job, and of a breakdown what is known of it, in one transaction. */
@Injectable()
export class Ask {
  constructor(
    private readonly database: Database,
    private readonly work: KeyedWork,
    private readonly hooks: JobHooks,
    private readonly clock: Clock,
  ) {}

  async for(caller: Caller, key: KeyedRequest, input: AskDto, severity: Severity | null): Promise<AskedView> {
    const now = this.clock.now();
    const skid = await this.skidFor(caller, input.skidId);
    const { title, request, positionId = null } = input;
    const noticedAt = input.noticedAt === undefined ? now : new Date(input.noticedAt);
    const downFrom = input.downFrom === undefined ? null : new Date(input.downFrom);
    const faults = timesAtOdds({ noticedAt, downFrom, restoredAt: null, repairMinutes: null }, now);
    if (severity === null && downFrom !== null) faults.push({ field: 'downFrom', message: 'a skid that stopped is a breakdown: give its severity too' });
    refuse(faults);
    return this.work.run(key, async (tx) => {
      if (positionId !== null && !(await isPositionOf(tx, skid.id, positionId))) throw faultIn('positionId', `${positionId} is no position of this skid`);
      const kind = severity === null ? 'request' : 'breakdown';
      const breakdown = severity === null ? null : { severity, source: sourceOf(caller), noticedAt, downFrom, positionId };
      const job = await openJob(tx, { skid, kind, title, request, positionId, by: caller }, breakdown);
      await this.hooks.tellChanged(tx, { id: job.id, skidId: skid.id, visitId: null });
      return viewOf(AskedView, { jobId: job.id, no: job.no, version: job.version, kind, state: 'open', skidId: skid.id, title, severity });
    });
  }

  /** Whoever has one site of a client asks for the skids of that site alone. */
  private async skidFor(caller: Caller, id: string) {
    const skid = await this.database.readFor(caller, (reader) => findSkidOfWork(reader, id));
    if (skid === null || (caller.siteId !== null && skid.siteId !== caller.siteId)) throw new NotFound('skid', id);
    if (skid.endedOn !== null) throw faultIn('skidId', `${skid.name} ended on ${skid.endedOn.toISOString().slice(0, 10)}`);
    return skid;
  }
}

function sourceOf({ role }: Caller): string {
  return role === 'client' || role === 'technician' ? role : 'staff';
}

/** Refuses fields at odds, each with its pointer; goes on where there are none. */
export function refuse(faults: readonly { readonly field: string; readonly message: string }[]): void {
  if (faults.length === 0) return;
  throw new InvalidRequest(
    'The request has fields that need a change',
    faults.map(({ field, message }) => ({ pointer: `#/${field}`, message })),
  );
}
