import { newId } from '../src/app/index.js';
import type { PrismaClient } from '../src/generated/prisma/client.js';
import { calibrationFigures } from '../src/instruments/core/calibration-figures.js';
import { errorInWords } from '../src/instruments/core/doubt-in-words.js';
import { doubtfulTimes } from '../src/instruments/core/doubtful-times.js';
import { judgeTest } from '../src/integrity/core/judge-test.js';
import { SIGNALS } from '../src/shared/signals.js';
import { idOf, type ScenarioIds } from './insert-registry.js';
import type { Scenario, ScenarioPosition } from './types.js';

const day = (text: string): Date => new Date(`${text}T00:00:00Z`);

/** Integrity tests and comparisons of instruments, judged as those are that people enter. */
export async function insertProofs(prisma: PrismaClient, scenario: Scenario, ids: ScenarioIds): Promise<void> {
  await insertIntegrity(prisma, scenario, ids);
  await insertCalibrations(prisma, scenario, ids);
}

const ofSkid = (ids: ScenarioIds, skidKey: string) => {
  const { id: skidId, clientId } = idOf(ids.skids, skidKey);
  return { skidId, clientId };
};

async function insertIntegrity(prisma: PrismaClient, { work, skids }: Scenario, ids: ScenarioIds): Promise<void> {
  await prisma.integritySetup.createMany({ data: work.integritySetups.map(({ skidKey, ...setup }) => ({ ...setup, ...ofSkid(ids, skidKey) })) });
  const setups = new Map((await prisma.integritySetup.findMany()).map((setup) => [setup.skidId, setup]));
  await prisma.integrityTest.createMany({
    data: work.decayTests.map(({ skidKey, by, ...test }) => {
      const setup = setups.get(idOf(ids.skids, skidKey).id) ?? null;
      const { reasons, airLiquidRatio, ...judged } = judgeTest(test, setup);
      return { ...test, ...judged, ...ofSkid(ids, skidKey), by: idOf(ids.names, by), reasons: [...reasons], setup: { ...setup, airLiquidRatio } };
    }),
  });
  await prisma.fibreRepair.createMany({
    data: work.fibreRepairs.map(({ skidKey, positionKey, by, ...repair }) => ({
      ...repair,
      ...ofSkid(ids, skidKey),
      positionId: idOf(ids.positions, positionKey),
      by: idOf(ids.names, by),
    })),
  });
  // Fibres that are closed filter no more.
  await prisma.skidArea.createMany({
    data: work.fibreRepairs.map(({ skidKey, at, areaLostM2 }) => {
      const areaM2 = skids.find(({ key }) => key === skidKey)?.areas.at(-1)?.areaM2 ?? 0;
      return { skidId: idOf(ids.skids, skidKey).id, fromDay: day(at.toISOString().slice(0, 10)), areaM2: areaM2 - areaLostM2 };
    }),
  });
}

async function insertCalibrations(prisma: PrismaClient, { work, positions }: Scenario, ids: ScenarioIds): Promise<void> {
  const positionOf = new Map(positions.map((position) => [position.key, position]));
  const rows = work.calibrations.map((calibration) => judged(calibration, idOf(positionOf, calibration.positionKey), ids));
  await prisma.calibration.createMany({ data: rows.map(({ row }) => row) });
  const positionIds = [...new Set(rows.map(({ row }) => row.positionId))];
  const doubts = positionIds.flatMap((positionId) => {
    const own = rows.filter(({ row }) => row.positionId === positionId);
    const checks = own.map(({ row }) => ({
      id: row.id,
      at: row.at,
      foundInTolerance: row.asFound === 'in tolerance',
      leftInTolerance: row.asLeft === 'in tolerance',
    }));
    return doubtfulTimes(checks, []).flatMap(({ checkId, from, to }) =>
      own
        .filter(({ row }) => row.id === checkId)
        .map(({ row: { id: calibrationId, clientId, skidId, signal, worstAsFound: error, at }, unit }) => {
          const reason = errorInWords({ signal, error, unit, when: 'found', day: at.toISOString().slice(0, 10) });
          return { clientId, skidId, signal, fromAt: from, toAt: to, error, reason, calibrationId };
        }),
    );
  });
  await prisma.doubtfulSpan.createMany({ data: doubts });
}

function judged(
  { positionKey, by, points, nextOn, ...rest }: Scenario['work']['calibrations'][number],
  { skidKey, signal }: ScenarioPosition,
  ids: ScenarioIds,
) {
  const figures = calibrationFigures(points, rest.tolerance);
  if (signal === null || figures.kind === 'no-points') throw new Error(`The demo scenario compares ${positionKey} with nothing`);
  const { worstAsFound, worstAsLeft, asFound, asLeft } = figures;
  const { unit } = SIGNALS[signal];
  const place = { positionId: idOf(ids.positions, positionKey), ...ofSkid(ids, skidKey), signal, unit };
  const row = { ...rest, ...place, id: newId(), by: idOf(ids.names, by), points: points.map((point) => ({ ...point })), nextOn: day(nextOn) };
  return { row: { ...row, worstAsFound, worstAsLeft, asFound, asLeft }, unit };
}
