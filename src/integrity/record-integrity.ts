import { Injectable } from '@nestjs/common';
import { type Caller, Clock, Database, faultIn, NotFound, type Reader, Recompute, runnerOf } from '../app/index.js';
import { dayOf, momentOf, SkidAreas } from '../registry/index.js';
import { judgeTest } from './core/judge-test.js';
import type { FibreRepairDto, IntegrityTestDto } from './integrity.dto.js';
import {
  areaOn,
  createRepair,
  createTest,
  deleteOfReport,
  findSetup,
  findTestedSkid,
  modulesOf,
  type RepairRow,
  type TestedSkid,
  type TestRow,
} from './integrity.repository.js';

interface Recorded {
  readonly by: string;
  readonly reportId: string | null;
}

/** Records integrity tests and the fibres that were closed, on their own or in the transaction of the job that did them. */
@Injectable()
export class RecordIntegrity {
  constructor(
    private readonly database: Database,
    private readonly areas: SkidAreas,
    private readonly recompute: Recompute,
    private readonly clock: Clock,
  ) {}

  recordTest(caller: Caller, skidId: string, input: IntegrityTestDto): Promise<TestRow> {
    return this.database.write(async (tx) => this.test(tx, await this.skid(tx, skidId), input, { by: caller.name, reportId: null }));
  }

  recordRepair(caller: Caller, skidId: string, input: FibreRepairDto): Promise<RepairRow> {
    return this.database.write(async (tx) => this.repair(tx, await this.skid(tx, skidId), input, { by: caller.name, reportId: null }));
  }

  /** Judged with the setup of the day; a test of the same moment is the same test. */
  async test(tx: Reader, { id: skidId, clientId }: TestedSkid, input: Omit<IntegrityTestDto, 'isView'>, { by, reportId }: Recorded): Promise<TestRow> {
    const at = momentOf(input.at ?? undefined, this.clock.now());
    const setup = await findSetup(tx, skidId);
    const { startKpa, endKpa, minutes, settledMinutes, temperatureC, note } = input;
    const { leastTestKpa, reasons, ...judged } = judgeTest({ startKpa, endKpa, minutes, settledMinutes, temperatureC }, setup);
    const row = await createTest(tx, {
      skidId,
      clientId,
      at,
      by,
      reportId,
      startKpa,
      endKpa,
      minutes,
      settledMinutes,
      temperatureC,
      note,
      ...judged,
      leastTestKpa,
      reasons: [...reasons],
      setup: (setup ?? {}) as object,
    });
    await this.recompute.later(skidId, runnerOf(tx));
    return row;
  }

  /** Closed fibres filter no more: where their number in a module and the area of the modules are known, the active area shrinks from that day on. */
  async repair(tx: Reader, { id: skidId, clientId }: TestedSkid, input: FibreRepairDto, { by, reportId }: Recorded): Promise<RepairRow> {
    const at = momentOf(input.at ?? undefined, this.clock.now());
    const modules = await modulesOf(tx, skidId);
    const module = modules.find(({ id }) => id === input.positionId);
    if (module === undefined) throw faultIn('positionId', `${input.positionId} is no module of this skid`);
    const fibresPerModule = (await findSetup(tx, skidId))?.fibresPerModule ?? null;
    if (fibresPerModule !== null && input.fibres > fibresPerModule) throw faultIn('fibres', `a module has ${fibresPerModule} fibres, not ${input.fibres}`);
    const day = dayOf(at);
    const area = await areaOn(tx, skidId, day);
    const areaLostM2 = fibresPerModule === null || area === null ? null : (area / modules.length) * (input.fibres / fibresPerModule);
    if (area !== null && areaLostM2 !== null && areaLostM2 > 0) await this.areas.within(tx, skidId, { fromDay: day, areaM2: area - areaLostM2 });
    const { positionId, fibres, note } = input;
    return createRepair(tx, { skidId, clientId, positionId, partId: module.partId, at, by, fibres, areaLostM2, note, reportId });
  }

  /** Takes back what a job sheet recorded that no longer counts. The active area stays, and is corrected by hand. */
  takeBack(tx: Reader, reportId: string): Promise<void> {
    return deleteOfReport(tx, reportId);
  }

  private async skid(tx: Reader, id: string): Promise<TestedSkid> {
    const skid = await findTestedSkid(tx, id);
    if (skid === null) throw new NotFound('skid', id);
    return skid;
  }
}
