import { createHash } from 'node:crypto';
import { Injectable } from '@nestjs/common';
import { type Caller, Clock, InvalidRequest, type KeyedRequest } from '../app/index.js';
import { type EventFact, faultsOfEvent } from './core/event.js';
import { timeReader } from './core/read-time.js';
import { Loading, type LoadReport } from './loading.js';
import { type SkidPlace, SkidsRepository } from './repositories/skids.repository.js';
import { StoreEvents } from './store-events.js';

export interface EventRequest {
  readonly skid: SkidPlace;
  readonly caller: Caller;
  /** ISO 8601; without an offset it is the time of the site */
  readonly at: string;
  readonly by: string;
  readonly event: EventFact;
  readonly replaceDiffering: boolean;
  readonly idempotency: KeyedRequest;
}

/** One event, entered by a person. */
@Injectable()
export class EnterEvents {
  constructor(
    private readonly loading: Loading,
    private readonly skids: SkidsRepository,
    private readonly events: StoreEvents,
    private readonly clock: Clock,
  ) {}

  async enter(request: EventRequest): Promise<LoadReport> {
    const { skid, caller, at, by, event, replaceDiffering, idempotency } = request;
    const time = timeReader('iso', skid.timeZone, this.clock.now().getTime())?.(at);
    const faults = faultsOfEvent(event, await this.skids.machinesOf(skid.id)).map(({ column, value, message }) => ({
      pointer: `#/${column}`,
      message: value === null ? message : `${value} ${message}`,
    }));
    if (time === undefined || time.kind === 'bad-time') faults.push({ pointer: '#/at', message: `${at} ${time?.reason}` });
    if (time === undefined || time.kind === 'bad-time' || faults.length > 0) throw new InvalidRequest('The event cannot be so', faults);
    const doubtful = time.kind === 'twice';
    const timed = { line: 1, at: new Date(doubtful ? time.firstMs : time.atMs), by, event };
    const name = event.kind === 'clean' ? event.clean : event.kind;
    return this.loading.run({ skid, caller, kind: 'events', name, dryRun: false, replaceDiffering, idempotency }, async (load) => {
      if (doubtful) load.problems.add('doubtful', 1, 'at', at, 'lies in the hour that the end of summer time doubles; taken as the first');
      await this.events.store(skid, [timed], load);
      return { rows: 1, sha256: createHash('sha256').update(JSON.stringify(timed)).digest('hex'), preview: [] };
    });
  }
}
