import { Injectable } from '@nestjs/common';
import { type Caller, Clock, Conflict, EditedMeanwhile, InvalidRequest, NotFound, type PageQuery, toPage, versionSeen, viewOf } from '../app/index.js';
import { dayOf } from '../registry/index.js';
import { dayInWords } from '../shared/day.js';
import { figure } from '../shared/figure.js';
import { localDay } from '../shared/local-day.js';
import { isAreaRaised } from './core/area-after-exchange.js';
import { isClosedIn } from './core/closed-in-module.js';
import { diffusiveDecayKpaMin } from './core/diffusive-decay.js';
import { breaksPerMillionYear, fibreRecord } from './core/fibre-record.js';
import { leastTestPressureKpa } from './core/least-test-pressure.js';
import { setupFaults } from './core/setup-faults.js';
import {
  FibreRepairsPageView,
  IntegrityPointView,
  IntegrityRecordView,
  type IntegritySetupDto,
  IntegritySetupView,
  IntegrityTestsPageView,
  ModuleFibresView,
} from './integrity.dto.js';
import { IntegrityRepository, type ModulePlace, type RepairRow } from './integrity.repository.js';
import { toRepairView, toTestView } from './integrity-view.js';

const DAY_MS = 86_400_000;
const YEAR_DAYS = 365.25;
/** A rate over less time than this says nothing. */
const LEAST_DAYS = 90;
/** Water at room temperature, for which the constants of diffusion are. */
const ROOM_C = 20;
/** Breaks for each million fibres and year that are usual, at most: from a survey as quoted. */
const USUAL_BREAKS = 10;

type Found = NonNullable<Awaited<ReturnType<IntegrityRepository['record']>>>;

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
    const {
      airLiquidRatio = null,
      baselineKpaMin = null,
      highestTestKpa = null,
      fibresPerModule = null,
      moduleAreaM2 = null,
      oxidantLimitPpmH = null,
      ...plain
    } = input;
    const data = { ...plain, airLiquidRatio, baselineKpaMin, highestTestKpa, fibresPerModule, moduleAreaM2, oxidantLimitPpmH };
    const faults = setupFaults(data).map(({ field, message }) => ({ pointer: `#/${field}`, message }));
    if (faults.length > 0) throw new InvalidRequest('The setup contradicts itself', faults);
    const present = await this.repository.setup(skid.id);
    if (present === null && ifMatch !== undefined) throw new Conflict('The skid has no integrity setup yet: leave If-Match out to make the first one');
    const row = await this.repository.saveSetup(skid, data, present === null ? null : versionSeen(ifMatch));
    if (row === null) throw new EditedMeanwhile('The integrity setup was edited after you read it. Read it again, and make your change to that');
    return setupView(row);
  }

  async tests(caller: Caller, skidId: string, query: PageQuery): Promise<IntegrityTestsPageView> {
    const rows = await this.repository.tests(caller, skidId, query);
    if (rows === null) throw new NotFound('skid', skidId);
    return viewOf(
      IntegrityTestsPageView,
      toPage(rows, query.limit, toTestView, ({ at }) => [at.getTime()]),
    );
  }

  async repairs(caller: Caller, skidId: string, query: PageQuery): Promise<FibreRepairsPageView> {
    const found = await this.repository.repairs(caller, skidId, query);
    if (found === null) throw new NotFound('skid', skidId);
    const { rows, names } = found;
    return viewOf(
      FibreRepairsPageView,
      toPage(
        rows,
        query.limit,
        (row) => toRepairView(row, names.get(row.positionId) ?? ''),
        ({ at, id }) => [at.getTime(), id],
      ),
    );
  }

  async read(caller: Caller, skidId: string): Promise<IntegrityRecordView> {
    const found = await this.repository.record(caller, skidId);
    if (found === null) throw new NotFound('skid', skidId);
    const { tests, counted, repairs, names, modules, setup } = found;
    const [last] = tests;
    const fibresPerModule = setup?.fibresPerModule ?? null;
    const rate = this.breaksPerMillionYear(found);
    return viewOf(IntegrityRecordView, {
      lastTest: last === undefined ? null : toTestView(last),
      lastCounted: counted === null ? null : toTestView(counted),
      trend: tests
        .map(({ at, decayKpaMin, lrv, controlLimitKpaMin, outcome }) => viewOf(IntegrityPointView, { at, decayKpaMin, lrv, controlLimitKpaMin, outcome }))
        .reverse(),
      modules: modules.map((module) => moduleView(module, repairs, fibresPerModule)),
      repairs: repairs.map((repair) => toRepairView(repair, names.get(repair.positionId) ?? '')),
      breaksPerMillionYear: rate,
      baselineKpaMin: setup?.baselineKpaMin ?? expectedByDiffusion(found),
      remarks: remarksOn(found, rate),
    });
  }

  /** Over the last twelve months, or since the skid was commissioned where that is less. */
  private breaksPerMillionYear({ repairs, modules, setup, commissionedOn }: Found): number | null {
    const now = this.clock.now().getTime();
    const days = Math.min(YEAR_DAYS, commissionedOn === null ? YEAR_DAYS : (now - commissionedOn.getTime()) / DAY_MS);
    if (setup?.fibresPerModule == null || days < LEAST_DAYS) return null;
    const closed = repairs.filter(({ at }) => at.getTime() >= now - days * DAY_MS).reduce((sum, { fibres }) => sum + fibres, 0);
    const count = modules.reduce((sum, place) => sum + place.modules, 0);
    return breaksPerMillionYear(closed, setup.fibresPerModule * count, days);
  }
}

/** At the least pressure that a test may have. */
function expectedByDiffusion({ setup, areas }: Found): number | null {
  const areaM2 = areas[0]?.areaM2;
  if (setup === null || areaM2 === undefined) return null;
  const overPressureKpa = leastTestPressureKpa({ ...setup, temperatureC: ROOM_C }) - setup.backPressureKpa;
  return diffusiveDecayKpaMin({ areaM2, airVolumeL: setup.airVolumeL, overPressureKpa });
}

function remarksOn(found: Found, rate: number | null): string[] {
  const { setup } = found;
  const expected = expectedByDiffusion(found);
  return [
    setup === null ? 'Nothing says what tests are judged with, so they are kept and do not count: a manager enters the integrity setup.' : '',
    setup?.baselineKpaMin != null
      ? `A sound unit of this kind loses ${figure(setup.baselineKpaMin)} kPa/min by air that diffuses through wet pores. Log removal is computed from the whole decay, which is on the safe side.`
      : '',
    setup?.baselineKpaMin == null && expected !== null
      ? `Air that diffuses through wet pores alone is expected to make about ${figure(expected)} kPa/min, by order of magnitude: measure it while the unit is sound, and look at what comes on top.`
      : '',
    rate !== null && rate > USUAL_BREAKS ? `${figure(rate)} fibres of a million broke in a year; 1 to 10 is usual. Look for the cause.` : '',
    ...found.modules.map((module) => areaThatLacks(module, found)),
  ].filter((remark) => remark !== '');
}

/** What closed fibres of an earlier module took is not given back by itself: only people know the area of the new one. */
function areaThatLacks({ id, name, partId, fittedAt }: ModulePlace, { repairs, areas, timeZone }: Found): string {
  if (fittedAt === null) return '';
  const lostM2 = repairs
    .filter((repair) => repair.positionId === id && repair.at < fittedAt && !isClosedIn(repair, { id, partId, fittedAt }))
    .reduce((sum, { areaLostM2 }) => sum + (areaLostM2 ?? 0), 0);
  const fittedOn = localDay(fittedAt, timeZone);
  const byDay = areas.map(({ fromDay, areaM2 }) => ({ fromDay: dayOf(fromDay), areaM2 }));
  if (lostM2 === 0 || isAreaRaised(byDay, fittedOn)) return '';
  return `A module was fitted at ${name} on ${dayInWords(fittedOn, '')}, and the active area still lacks the ${figure(lostM2)} m² that closed fibres of earlier ones took: a manager enters the area from that day.`;
}

function setupView({ skidId: _, clientId: _c, ...setup }: NonNullable<Awaited<ReturnType<IntegrityRepository['setup']>>>): IntegritySetupView {
  return viewOf(IntegritySetupView, setup);
}

function moduleView(module: ModulePlace, repairs: readonly RepairRow[], fibresPerModule: number | null): ModuleFibresView {
  const { id, name, modules } = module;
  const own = repairs.filter((repair) => isClosedIn(repair, module));
  const closed = own.reduce((sum, { fibres }) => sum + fibres, 0);
  const areaLostM2 = own.reduce((sum, repair) => sum + (repair.areaLostM2 ?? 0), 0);
  const record = fibreRecord(closed, fibresPerModule === null ? null : fibresPerModule * modules);
  return viewOf(ModuleFibresView, { positionId: id, positionName: name, areaLostM2, ...record });
}
