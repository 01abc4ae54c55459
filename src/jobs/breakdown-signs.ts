import { Injectable, type OnModuleInit } from '@nestjs/common';
import { Clock, Database, Recompute, type SkidToRecompute } from '../app/index.js';
import { editBreakdown, finishWithoutVisit, openJob } from './breakdown-rows.repository.js';
import { BreakdownSignsRepository, type SignOnRecord, type SkidToWatch } from './breakdown-signs.repository.js';
import { integritySign } from './core/breakdown/integrity-sign.js';
import { type FlowRecord, noFlowSign } from './core/breakdown/no-flow-sign.js';
import type { Sign } from './core/breakdown/sign.js';
import { signOfTank, tankSign } from './core/breakdown/tank-sign.js';
import { JobHooks } from './job-hooks.js';
import { addChange, editJob, holdJob } from './job-writes.repository.js';

const READINGS = { id: null, name: 'Readings' };

/** Makes breakdowns of what the readings show, each sign one until it is over, and ends those that nobody has touched once it is. */
@Injectable()
export class BreakdownSigns implements OnModuleInit {
  constructor(
    private readonly recompute: Recompute,
    private readonly database: Database,
    private readonly repository: BreakdownSignsRepository,
    private readonly hooks: JobHooks,
    private readonly clock: Clock,
  ) {}

  onModuleInit(): void {
    this.recompute.addStep(5, (skid) => this.ofSkid(skid));
  }

  async ofSkid({ id, no }: SkidToRecompute): Promise<void> {
    const skid = await this.repository.skid(id);
    if (skid?.serviceState !== 'in service') return;
    const now = this.clock.now();
    const [test, flow, tanks, onRecord] = await Promise.all([
      this.repository.lastCountedTest(id),
      this.repository.flow({ id, no }, now),
      this.repository.tanks(id),
      this.repository.onRecord(id),
    ]);
    const known = new Set(tanks.map((tank) => signOfTank(tank.id)));
    const gone = onRecord
      .filter(({ sign }) => sign.startsWith(signOfTank('')) && !known.has(sign))
      .map(({ sign }): Sign => ({ kind: 'over', sign, since: now }));
    const signs = [integritySign(test), await this.ofFlow(id, flow, now), ...tanks.map((tank) => tankSign(tank, now)), ...gone];
    for (const sign of signs)
      if (sign !== null)
        await this.follow(
          skid,
          sign,
          onRecord.find((each) => each.sign === sign.sign),
        );
  }

  /** The level of the product tank is looked at only where the skid stands: it is many samples. */
  private async ofFlow(skidId: string, flow: Omit<FlowRecord, 'lastFullAt'>, now: Date): Promise<Sign | null> {
    const told = noFlowSign({ ...flow, lastFullAt: null }, now);
    if (told?.kind !== 'shown') return told;
    return noFlowSign({ ...flow, lastFullAt: await this.repository.tankLastFull(skidId, now) }, now);
  }

  private async follow(skid: SkidToWatch, sign: Sign, made: SignOnRecord | undefined): Promise<void> {
    if (sign.kind === 'shown') {
      if (made === undefined) await this.make(skid, sign);
    } else if (made !== undefined && sign.since > (made.downFrom ?? made.noticedAt)) await this.end(made, sign.since);
  }

  private async make(skid: SkidToWatch, shown: Extract<Sign, { kind: 'shown' }>): Promise<void> {
    const { sign, severity, title, request, noticedAt, downFrom } = shown;
    await this.database.write(async (tx) => {
      const job = { skid, kind: 'breakdown', title, request, positionId: null, by: READINGS } as const;
      const { id } = await openJob(tx, job, { sign, severity, source: 'readings', noticedAt, downFrom });
      await this.hooks.tellChanged(tx, { id, skidId: skid.id, visitId: null });
    });
  }

  /** Of a skid that stopped, the readings know when it gave water again, unless somebody has said so. */
  private async end({ jobId, downFrom, restoredAt, untouched }: SignOnRecord, since: Date): Promise<void> {
    await this.database.write(async (tx) => {
      const job = await holdJob(tx, jobId);
      if (job === undefined) return;
      const restored = restoredAt ?? (downFrom !== null || untouched ? since : null);
      await editBreakdown(tx, jobId, { signOverAt: since, restoredAt: restored, ...(untouched && { endedBy: 'itself' }) });
      const at = this.clock.now();
      const note = `The readings show it no more since ${since.toISOString().slice(0, 16).replace('T', ' ')} UTC`;
      if (untouched && job.version === 1) {
        await finishWithoutVisit(tx, job, { by: READINGS, at, note });
        await this.hooks.tellFinished(tx, job);
      } else {
        await editJob(tx, jobId, {});
        await addChange(tx, { jobId, clientId: job.clientId, at, byId: null, by: READINGS.name, what: 'note', note, toClient: true });
      }
    });
  }
}
