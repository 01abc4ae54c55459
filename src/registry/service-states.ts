import { Injectable } from '@nestjs/common';
import { type Caller, Clock, Database, type KeyedRequest, KeyedWork, type Reader, Recompute, runnerOf, viewOf } from '../app/index.js';
import { momentOf } from './moment.js';
import { type ServiceStateDto, ServiceStateView, type SkidView } from './skids.dto.js';
import { changeState, skidRecords, stateChangesOf, takeBackState } from './skids.repository.js';

/** Whether a skid is in service, laid up or retired, and since when. */
@Injectable()
export class ServiceStates {
  constructor(
    private readonly database: Database,
    private readonly work: KeyedWork,
    private readonly recompute: Recompute,
    private readonly clock: Clock,
  ) {}

  change(caller: Caller, key: KeyedRequest, skidId: string, input: ServiceStateDto): Promise<ServiceStateView[]> {
    return this.work.run(key, async (tx) => {
      await this.within(tx, caller, skidId, input);
      return (await stateChangesOf(tx, skidId)).map(toView);
    });
  }

  /** In the transaction of the work that stops or restarts the skid. */
  async within(tx: Reader, caller: Caller, skidId: string, { state, note = '', at }: ServiceStateDto): Promise<void> {
    const moment = momentOf(at, this.clock.now());
    const { clientId } = await skidRecords.find(tx, skidId);
    await changeState(tx, { clientId, skidId, at: moment, state, note, by: caller.name });
    await this.recompute.later(skidId, runnerOf(tx));
  }

  /** Takes a change out of the history that turned out not to be so. The skid is in the state of what is then its latest change; without any, in the one `before` it. */
  async takeBack(tx: Reader, skidId: string, { state, at, before }: { state: string; at: Date; before: string }): Promise<void> {
    await takeBackState(tx, { skidId, at, state }, before);
    await this.recompute.later(skidId, runnerOf(tx));
  }

  history(caller: Caller, skidId: string): Promise<ServiceStateView[]> {
    return this.database.readFor(caller, async (reader) => {
      await skidRecords.find(reader, skidId);
      return (await stateChangesOf(reader, skidId)).map(toView);
    });
  }
}

function toView({ state, at, by, note }: Awaited<ReturnType<typeof stateChangesOf>>[number]): ServiceStateView {
  return viewOf(ServiceStateView, { state: state as SkidView['serviceState'], at, by, note });
}
