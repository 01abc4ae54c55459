import type { ScenarioIntegritySetup } from '../work-types.js';

/** The skids that make drinking water. Figures are invented; the air volume is that of modules and pipework. */
export const INTEGRITY_SETUPS: readonly ScenarioIntegritySetup[] = [setup('fern-1', 40, 420), setup('wick-1', 30, 330), setup('sill-1', 15, 190)];

function setup(skidKey: string, designFlowM3h: number, airVolumeL: number): ScenarioIntegritySetup {
  const common = { highestTmpKpa: 120, backPressureKpa: 10, creditLrv: 4, baselineKpaMin: 0.1, highestTestKpa: 200, fibresPerModule: 9_000 };
  return { skidKey, designFlowM3h, airVolumeL, ...common };
}
