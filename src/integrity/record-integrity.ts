import { Injectable } from '@nestjs/common';
import {
  type Caller,
  Clock,
  type FieldProblem,
  InvalidRequest,
  type KeyedRequest,
  KeyedWork,
  NotFound,
  type Reader,
  Recompute,
  runnerOf,
} from '../app/index.js';
import { momentOf, SkidAreas } from '../registry/index.js';
import { localDay } from '../shared/local-day.js';
import { judgeTest } from './core/judge-test.js';
import { testFaults } from './core/test-faults.js';
import type { FibreRepairDto, FibreRepairView, IntegrityTestDto, IntegrityTestView } from './integrity.dto.js';
import {
  areaOn,
  closedIn,
  createRepair,
  createTest,
  deleteOfReport,
  findSetup,
  findTestedSkid,
  isTestedAt,
  modulesOf,
  type RepairRow,
  type TestedSkid,
  type TestRow,
  timeZoneOf,
} from './integrity.repository.js';
import { toRepairView, toTestView } from './integrity-view.js';

/** An integrity test with its moment. */
export interface TestToRecord extends Omit<IntegrityTestDto, 'at'> {
  readonly at: Date;
}

/** Fibres that were closed, with the moment. */
export interface RepairToRecord extends Omit<FibreRepairDto, 'at'> {
  readonly at: Date;
}

interface Recorded {
  readonly by: string;
  readonly reportId: string | null;
}

/** Records integrity tests and the fibres that were closed, on their own or in the transaction of the job that did them. */
@Injectable()
export class RecordIntegrity {
  constructor(
    private readonly work: KeyedWork,
    private readonly areas: SkidAreas,
    private readonly recompute: Recompute,
    private readonly clock: Clock,
  ) {}

  recordTest(caller: Caller, key: KeyedRequest, skidId: string, { at, ...told }: IntegrityTestDto): Promise<IntegrityTestView> {
    return this.work.run(key, async (tx) => {
      const skid = await existing(tx, skidId);
      const test = { ...told, at: momentOf(at ?? undefined, this.clock.now()) };
      refuse(await this.testFaults(tx, skidId, test));
      return toTestView(await this.test(tx, skid, test, { by: caller.name, reportId: null }));
    });
  }

  recordRepair(caller: Caller, key: KeyedRequest, skidId: string, { at, ...told }: FibreRepairDto): Promise<FibreRepairView> {
    return this.work.run(key, async (tx) => {
      const skid = await existing(tx, skidId);
      const repair = { ...told, at: momentOf(at ?? undefined, this.clock.now()) };
      refuse(await this.repairFaults(tx, skidId, repair));
      const row = await this.repair(tx, skid, repair, { by: caller.name, reportId: null });
      const name = (await modulesOf(tx, skidId, repair.at)).find(({ id }) => id === row.positionId)?.name ?? '';
      return toRepairView(row, name);
    });
  }

  /** Everything of a test that cannot be so, with a pointer into it. */
  async testFaults(tx: Reader, skidId: string, test: TestToRecord): Promise<FieldProblem[]> {
    const faults = testFaults(test).map(({ field, message }) => ({ pointer: `#/${field}`, message }));
    if (!(await isTestedAt(tx, skidId, test.at))) return faults;
    return [...faults, { pointer: '#/at', message: 'the skid has a test of this moment already: give another time, or leave this one out' }];
  }

  /** Everything of a repair that cannot be so, with a pointer into it. */
  async repairFaults(tx: Reader, skidId: string, { positionId, fibres, at }: RepairToRecord): Promise<FieldProblem[]> {
    const module = (await modulesOf(tx, skidId, at)).find(({ id }) => id === positionId);
    if (module === undefined) return [{ pointer: '#/positionId', message: `${positionId} is no module of this skid` }];
    const fibresPerModule = (await findSetup(tx, skidId))?.fibresPerModule ?? null;
    if (fibresPerModule === null) return [];
    const there = fibresPerModule * module.modules;
    const closed = await closedIn(tx, module);
    if (closed + fibres < there) return [];
    const before = closed === 0 ? '' : `, ${closed} of them closed before`;
    return [{ pointer: '#/fibres', message: `${module.name} has ${there} fibres${before}: ${fibres} more would leave none` }];
  }

  /** Stores what `testFaults` found nothing wrong with, judged with the setup of the day. */
  async test(tx: Reader, { id: skidId, clientId }: TestedSkid, test: TestToRecord, { by, reportId }: Recorded): Promise<TestRow> {
    const setup = await findSetup(tx, skidId);
    const { at, startKpa, endKpa, minutes, settledMinutes, temperatureC, note } = test;
    const read = { startKpa, endKpa, minutes, settledMinutes, temperatureC };
    const { airLiquidRatio, reasons, ...judged } = judgeTest(read, setup);
    const judgedWith = setup === null ? {} : { ...setup, airLiquidRatio };
    const row = await createTest(tx, { skidId, clientId, at, by, reportId, note, ...read, ...judged, reasons: [...reasons], setup: judgedWith });
    await this.recompute.later(skidId, runnerOf(tx));
    return row;
  }

  /** Closed fibres filter no more: where their number in a module and its area are known, the active area shrinks from that day on. */
  async repair(tx: Reader, { id: skidId, clientId }: TestedSkid, repair: RepairToRecord, { by, reportId }: Recorded): Promise<RepairRow> {
    const { at, positionId, fibres, note } = repair;
    const modules = await modulesOf(tx, skidId, at);
    const partId = modules.find(({ id }) => id === positionId)?.partId ?? null;
    const setup = await findSetup(tx, skidId);
    const day = localDay(at, await timeZoneOf(tx, skidId));
    const area = setup?.moduleAreaM2 ?? shareOf(await areaOn(tx, skidId, day), modules);
    const fibresPerModule = setup?.fibresPerModule ?? null;
    const lost = area === null || fibresPerModule === null ? null : (area * fibres) / fibresPerModule;
    const areaLostM2 = lost !== null && (await this.areas.shrink(tx, skidId, { fromDay: day, byM2: lost })) ? lost : null;
    return createRepair(tx, { skidId, clientId, positionId, partId, at, by, fibres, areaLostM2, note, reportId });
  }

  /** Takes out what a job sheet recorded that counts no longer, and gives back the area that its repairs took. */
  async takeBack(tx: Reader, skidId: string, reportId: string): Promise<void> {
    const timeZone = await timeZoneOf(tx, skidId);
    for (const { at, areaLostM2 } of await deleteOfReport(tx, reportId))
      if (areaLostM2 !== null) await this.areas.shrink(tx, skidId, { fromDay: localDay(at, timeZone), byM2: -areaLostM2 });
    await this.recompute.later(skidId, runnerOf(tx));
  }
}

async function existing(tx: Reader, id: string): Promise<TestedSkid> {
  const skid = await findTestedSkid(tx, id);
  if (skid === null) throw new NotFound('skid', id);
  return skid;
}

function refuse(faults: FieldProblem[]): void {
  if (faults.length > 0) throw new InvalidRequest('The request has fields that need a change', faults);
}

/** The active area of one module, where all are alike. */
function shareOf(areaM2: number | null, modules: readonly { readonly modules: number }[]): number | null {
  const count = modules.reduce((sum, place) => sum + place.modules, 0);
  return areaM2 === null || count === 0 ? null : areaM2 / count;
}
