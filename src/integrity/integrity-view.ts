import { viewOf } from '../app/index.js';
import { type IntegrityBasis, STEPS_AFTER_FAILURE } from './core/judge-test.js';
import { FibreRepairView, IntegrityTestView, JudgedWithView } from './integrity.dto.js';
import type { RepairRow, TestRow } from './integrity.repository.js';

export function toTestView({ skidId: _, clientId: _c, reportId: _r, setup, ...test }: TestRow): IntegrityTestView {
  return viewOf(IntegrityTestView, { ...test, nextSteps: test.outcome === 'failed' ? [...STEPS_AFTER_FAILURE] : [], judgedWith: toJudgedWith(setup) });
}

/** A test before the skid had a setup keeps an empty one. */
function toJudgedWith(setup: TestRow['setup']): JudgedWithView | null {
  const basis = setup as unknown as Partial<IntegrityBasis & { airLiquidRatio: number }>;
  if (basis.designFlowM3h === undefined) return null;
  const { designFlowM3h, airVolumeL, highestTmpKpa, backPressureKpa, atmosphericKpa, airLiquidRatio } = basis as IntegrityBasis & { airLiquidRatio: number };
  const { netExpansion, concentration, poreShape, contactAngleDeg, creditLrv, highestTestKpa, leastSettledMin, gaugeStepKpa } = basis as IntegrityBasis;
  return viewOf(JudgedWithView, {
    designFlowM3h,
    airVolumeL,
    highestTmpKpa,
    backPressureKpa,
    atmosphericKpa,
    airLiquidRatio,
    netExpansion,
    concentration,
    poreShape,
    contactAngleDeg,
    creditLrv,
    highestTestKpa,
    leastSettledMin,
    gaugeStepKpa,
  });
}

export function toRepairView({ id, at, by, positionId, fibres, areaLostM2, note }: RepairRow, positionName: string): FibreRepairView {
  return viewOf(FibreRepairView, { id, at, by, positionId, positionName, fibres, areaLostM2, note });
}
