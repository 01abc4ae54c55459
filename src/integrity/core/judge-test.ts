import { airLiquidRatioTurbulent } from './air-liquid-ratio.js';
import { leastTestPressureKpa } from './least-test-pressure.js';
import { controlLimitKpaMin, logRemoval, type RemovalBasis } from './log-removal.js';

/** What the integrity tests of a unit are computed and judged with. */
export interface IntegrityBasis {
  readonly designFlowM3h: number;
  readonly airVolumeL: number;
  readonly highestTmpKpa: number;
  readonly backPressureKpa: number;
  readonly atmosphericKpa: number;
  /** As agreed with the regulator; unset: computed for turbulent flow, the smaller */
  readonly airLiquidRatio: number | null;
  readonly netExpansion: number;
  readonly concentration: number;
  readonly poreShape: number;
  readonly contactAngleDeg: number;
  readonly creditLrv: number;
  readonly highestTestKpa: number | null;
  readonly leastSettledMin: number;
}

export interface DecayTest {
  readonly startKpa: number;
  readonly endKpa: number;
  readonly minutes: number;
  readonly settledMinutes: number;
  readonly temperatureC: number;
}

export interface JudgedTest {
  readonly decayKpaMin: number;
  readonly leastTestKpa: number | null;
  readonly lrv: number | null;
  readonly sensitivityLrv: number | null;
  readonly controlLimitKpaMin: number | null;
  readonly outcome: 'passed' | 'failed' | 'not counted';
  readonly reasons: readonly string[];
}

/** Smallest decay that a gauge with 0.1 kPa steps shows reliably in ten minutes: common practice. */
const SMALLEST_STEP_KPA = 0.1;

/**
 * Reads a pressure-decay test. It does not count when its pressure was too low to open a pore of 3 µm, at the start or at the end, when it rose, when the air had not settled, or when it
 * went over what the module bears; it fails when the decay is over the control limit of the credit.
 *
 * Source: 40 CFR 141.719(b): a control limit that assures the credit, and the unit out of service beyond it; when a test is not to be counted: common practice (ASTM D6908 describes the test).
 *
 * @example judgeTest({ startKpa: 120, endKpa: 115, minutes: 10, settledMinutes: 5, temperatureC: 20 }, null).outcome // => "not counted"
 */
export function judgeTest(test: DecayTest, basis: IntegrityBasis | null): JudgedTest {
  const decayKpaMin = (test.startKpa - test.endKpa) / test.minutes;
  if (basis === null) {
    const reasons = [
      'Nothing says what the test is judged with: enter the design flow, the air volume, the highest transmembrane pressure and the credit of the unit',
    ];
    return { decayKpaMin, leastTestKpa: null, lrv: null, sensitivityLrv: null, controlLimitKpaMin: null, outcome: 'not counted', reasons };
  }
  const leastTestKpa = leastTestPressureKpa({ ...basis, temperatureC: test.temperatureC });
  const removal = removalBasis(test, basis);
  const limit = controlLimitKpaMin(basis.creditLrv, removal);
  const figures = {
    decayKpaMin,
    leastTestKpa,
    lrv: logRemoval(decayKpaMin, removal),
    sensitivityLrv: logRemoval(SMALLEST_STEP_KPA / test.minutes, removal),
    controlLimitKpaMin: limit,
  };
  const doubts = doubtsOf(test, basis, leastTestKpa);
  if (doubts.length > 0) return { ...figures, outcome: 'not counted', reasons: doubts };
  if (decayKpaMin <= limit) return { ...figures, outcome: 'passed', reasons: [] };
  return {
    ...figures,
    outcome: 'failed',
    reasons: [`The pressure fell by ${decayKpaMin.toFixed(2)} kPa/min; the credit of ${basis.creditLrv} allows ${limit.toFixed(2)}`],
  };
}

/** The conversion ratio is that of the end of the test, where the pressure is lowest. */
function removalBasis(test: DecayTest, basis: IntegrityBasis): RemovalBasis {
  const { backPressureKpa, atmosphericKpa, highestTmpKpa, netExpansion, airVolumeL, concentration } = basis;
  const air = { testKpa: Math.max(test.endKpa, backPressureKpa), backPressureKpa, atmosphericKpa, tmpKpa: highestTmpKpa, temperatureC: test.temperatureC };
  const airLiquidRatio = basis.airLiquidRatio ?? airLiquidRatioTurbulent(air, netExpansion);
  return { designFlowLMin: (basis.designFlowM3h * 1000) / 60, airVolumeL, atmosphericKpa, airLiquidRatio, concentration };
}

function doubtsOf({ startKpa, endKpa, settledMinutes }: DecayTest, { highestTestKpa, leastSettledMin }: IntegrityBasis, leastKpa: number): string[] {
  const least = leastKpa.toFixed(1);
  return [
    highestTestKpa !== null && startKpa > highestTestKpa
      ? `The test began at ${startKpa} kPa, over the ${highestTestKpa} kPa that the module bears: check the modules and the regulator`
      : '',
    startKpa < leastKpa ? `The test began at ${startKpa} kPa, below the ${least} kPa that open a pore of 3 µm` : '',
    startKpa >= leastKpa && endKpa < leastKpa
      ? `The pressure ended at ${endKpa} kPa, below the ${least} kPa that open a pore of 3 µm: begin higher, or test for a shorter time`
      : '',
    endKpa > startKpa ? 'The pressure rose: the temperature was not steady, or air was still coming in' : '',
    settledMinutes < leastSettledMin ? `The air had ${settledMinutes} min to settle, not ${leastSettledMin}` : '',
  ].filter((doubt) => doubt !== '');
}

/** What is usually done after a failed test. Source: common practice; the local regulator's rule goes before it. */
export const STEPS_AFTER_FAILURE: readonly string[] = [
  'Take the unit out of service: its water is kept from supply until it passes, or until the local regulator agrees',
  'Check valves, fittings and the drain, and repeat the test once: a leak outside the fibres fails a sound unit',
  'Find the module: listen, look for bubbles at its clear piece, or test each one alone',
  'Isolate the module, or close the broken fibres as its maker says; never over its test pressure',
  'Test again before the unit returns to supply, and report as the local regulator asks',
];
