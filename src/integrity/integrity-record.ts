import { Injectable } from '@nestjs/common';
import { type Caller, Clock, Conflict, EditedMeanwhile, NotFound, toPage, versionSeen, viewOf } from '../app/index.js';
import { breaksPerMillionYear, fibreRecord } from './core/fibre-record.js';
import { STEPS_AFTER_FAILURE } from './core/judge-test.js';
import {
  FibreRepairView,
  type IntegrityQuery,
  IntegrityRecordView,
  type IntegritySetupDto,
  IntegritySetupView,
  IntegrityTestsPageView,
  IntegrityTestView,
  ModuleFibresView,
} from './integrity.dto.js';
import { IntegrityRepository, type ModulePlace, type RepairRow, type TestRow } from './integrity.repository.js';

const YEAR_DAYS = 365.25;

/** What is on record about the integrity of a skid's fibres, and what its tests are judged with. */
@Injectable()
export class IntegrityRecord {
  constructor(
    private readonly repository: IntegrityRepository,
    private readonly clock: Clock,
  ) {}

  async setup(skidId: string): Promise<IntegritySetupView> {
    const row = await this.repository.setup(skidId);
    if (row === null) throw new NotFound('integrity setup of skid', skidId);
    return setupView(row);
  }

  /** The first is made without a version; an edit needs the one that was read. */
  async saveSetup(skidId: string, input: IntegritySetupDto, ifMatch: string | undefined): Promise<IntegritySetupView> {
    const skid = await this.repository.skid(skidId);
    if (skid === null) throw new NotFound('skid', skidId);
    const { airLiquidRatio = null, baselineKpaMin = null, highestTestKpa = null, fibresPerModule = null, ...plain } = input;
    const data = { ...plain, airLiquidRatio, baselineKpaMin, highestTestKpa, fibresPerModule };
    const present = await this.repository.setup(skid.id);
    if (present === null && ifMatch !== undefined) throw new Conflict('The skid has no integrity setup yet: leave If-Match out to make the first one');
    const row = await this.repository.saveSetup(skid, data, present === null ? null : versionSeen(ifMatch));
    if (row === null) throw new EditedMeanwhile('The integrity setup was edited after you read it. Read it again, and make your change to that');
    return setupView(row);
  }

  async tests(caller: Caller, skidId: string, query: IntegrityQuery): Promise<IntegrityTestsPageView> {
    const rows = await this.repository.tests(caller, skidId, query);
    if (rows === null) throw new NotFound('skid', skidId);
    return viewOf(
      IntegrityTestsPageView,
      toPage(rows, query.limit, testView, ({ at }) => [at.getTime()]),
    );
  }

  async read(caller: Caller, skidId: string): Promise<IntegrityRecordView> {
    const found = await this.repository.record(caller, skidId);
    if (found === null) throw new NotFound('skid', skidId);
    const { last, counted, repairs, modules, fibresPerModule } = found;
    const yearAgo = this.clock.now().getTime() - YEAR_DAYS * 86_400_000;
    const closed = repairs.filter(({ at }) => at.getTime() >= yearAgo).reduce((sum, { fibres }) => sum + fibres, 0);
    return viewOf(IntegrityRecordView, {
      lastTest: last === null ? null : testView(last),
      lastCounted: counted === null ? null : testView(counted),
      modules: modules.map((module) => moduleView(module, repairs, fibresPerModule)),
      repairs: repairs.map((repair) => repairView(repair, modules.find(({ id }) => id === repair.positionId)?.name ?? '')),
      breaksPerMillionYear: fibresPerModule === null ? null : breaksPerMillionYear(closed, fibresPerModule * modules.length, YEAR_DAYS),
    });
  }
}

function setupView({ skidId: _, clientId: _c, ...setup }: NonNullable<Awaited<ReturnType<IntegrityRepository['setup']>>>): IntegritySetupView {
  return viewOf(IntegritySetupView, setup);
}

export function testView({ skidId: _, clientId: _c, setup: _s, reportId: _r, ...test }: TestRow): IntegrityTestView {
  return viewOf(IntegrityTestView, { ...test, nextSteps: test.outcome === 'failed' ? [...STEPS_AFTER_FAILURE] : [] });
}

export function repairView({ id, at, by, positionId, fibres, areaLostM2, note }: RepairRow, positionName: string): FibreRepairView {
  return viewOf(FibreRepairView, { id, at, by, positionId, positionName, fibres, areaLostM2, note });
}

/** A new module begins its count anew; a clean does not. */
function moduleView({ id, name, fittedAt }: ModulePlace, repairs: readonly RepairRow[], fibresPerModule: number | null): ModuleFibresView {
  const own = repairs.filter(({ positionId, at }) => positionId === id && (fittedAt === null || at >= fittedAt));
  const record = fibreRecord(
    own.reduce((sum, { fibres }) => sum + fibres, 0),
    fibresPerModule,
  );
  return viewOf(ModuleFibresView, { positionId: id, positionName: name, ...record });
}
