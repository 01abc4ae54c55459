import { judgeTest } from '../../src/integrity/core/judge-test.js';
import { TECHNICIANS } from '../data/people.js';
import { INTEGRITY_SETUPS } from '../data/proofs.js';
import type { Scenario } from '../types.js';
import type { ScenarioDecayTest, ScenarioFibreRepair, ScenarioIntegritySetup, ScenarioWork } from '../work-types.js';
import { comparisonsOf } from './comparisons.js';
import { DAY_MS, HOUR_MS, MINUTE_MS } from './period.js';
import { positionKey } from './positions.js';
import { type Random, randomOf } from './random.js';

type Proofs = Pick<ScenarioWork, 'integritySetups' | 'decayTests' | 'fibreRepairs' | 'calibrations'>;

const [WEEKS, START_KPA, MINUTES, SETTLED_MINUTES] = [13, 150, 10, 6] as const;
/** Of this skid, the test of so many weeks ago failed. */
const FAILED = { skidKey: 'fern-1', weeksAgo: 4, moduleName: 'Module 3', fibres: 2 } as const;
const REST = {
  netExpansion: 0.7,
  atmosphericKpa: 101.325,
  airLiquidRatio: null,
  concentration: 1,
  poreShape: 1,
  contactAngleDeg: 0,
  leastSettledMin: 5,
  gaugeStepKpa: 0.1,
};

/** Integrity tests of the last quarter, and the comparisons of instruments that the service record names. */
export function proofsOf({ until, skids, positions, serviceEntries }: Pick<Scenario, 'until' | 'skids' | 'positions' | 'serviceEntries'>): Proofs {
  const skidOf = new Map(skids.map((skid) => [skid.key, skid]));
  const integritySetups = INTEGRITY_SETUPS.filter(({ skidKey }) => skidOf.has(skidKey));
  const failedAt = new Date(testTime(until, FAILED.weeksAgo));
  const modules = positions.filter(({ skidKey, kind }) => skidKey === FAILED.skidKey && kind === 'module').length;
  const areaM2 = skidOf.get(FAILED.skidKey)?.areas.at(-1)?.areaM2 ?? 0;
  return {
    integritySetups,
    decayTests: integritySetups.flatMap((setup) => testsOf(setup, until)),
    fibreRepairs: integritySetups.filter(({ skidKey }) => skidKey === FAILED.skidKey).map((setup) => repairOf(setup, failedAt, areaM2 / modules)),
    calibrations: comparisonsOf({ until, positions, serviceEntries }),
  };
}

const testTime = (until: Date, weeksAgo: number): number => Math.floor((until.getTime() - (7 * weeksAgo + 1) * DAY_MS) / DAY_MS) * DAY_MS + 9 * HOUR_MS;

/** One a week, with a decay that rises slowly as a share of its limit. After one that failed, the test is held again when the fibres are closed. */
function testsOf(setup: ScenarioIntegritySetup, until: Date): ScenarioDecayTest[] {
  const random = randomOf(`${setup.skidKey} decay tests`);
  return Array.from({ length: WEEKS }, (_, index) => WEEKS - 1 - index).flatMap((weeksAgo) => {
    const share = 0.34 + 0.14 * (1 - weeksAgo / WEEKS) + 0.02 * random.normal();
    const atMs = testTime(until, weeksAgo);
    if (setup.skidKey !== FAILED.skidKey || weeksAgo !== FAILED.weeksAgo) return [testOf(setup, atMs, share, '', random)];
    return [
      testOf(setup, atMs, 1.35, `Bubbles at ${FAILED.moduleName}`, random),
      testOf(setup, atMs + 4 * HOUR_MS, share, `Again, with ${FAILED.fibres} fibres closed`, random),
    ];
  });
}

function testOf(setup: ScenarioIntegritySetup, atMs: number, share: number, note: string, random: Random): ScenarioDecayTest {
  const { skidKey } = setup;
  const times = { minutes: MINUTES, settledMinutes: SETTLED_MINUTES, temperatureC: Math.round(10 * random.between(9, 13)) / 10 };
  const limit = judgeTest({ startKpa: START_KPA, endKpa: START_KPA, ...times }, { ...setup, ...REST }).controlLimitKpaMin ?? 0;
  const endKpa = Math.round(10 * (START_KPA - share * limit * MINUTES)) / 10;
  return { skidKey, at: new Date(atMs + Math.round(random.between(0, 40)) * MINUTE_MS), by: TECHNICIANS[0], startKpa: START_KPA, endKpa, ...times, note };
}

function repairOf({ skidKey, fibresPerModule }: ScenarioIntegritySetup, failedAt: Date, moduleM2: number): ScenarioFibreRepair {
  const { fibres, moduleName } = FAILED;
  return {
    skidKey,
    positionKey: positionKey(skidKey, moduleName),
    at: new Date(failedAt.getTime() + 2.5 * HOUR_MS),
    by: TECHNICIANS[0],
    fibres,
    areaLostM2: (moduleM2 * fibres) / fibresPerModule,
    note: 'Pins at both ends',
  };
}
