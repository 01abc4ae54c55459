import { airLiquidRatio } from './air-liquid-ratio.js';
import { leastTestPressureKpa } from './least-test-pressure.js';
import { controlLimitKpaMin, logRemoval, type RemovalBasis } from './log-removal.js';

/** What the integrity tests of a unit are computed and judged with. */
export interface IntegrityBasis {
  readonly designFlowM3h: number;
  readonly airVolumeL: number;
  readonly highestTmpKpa: number;
  readonly backPressureKpa: number;
  readonly atmosphericKpa: number;
  /** As agreed with the regulator; unset: computed, the smaller of the turbulent and the laminar one */
  readonly airLiquidRatio: number | null;
  readonly netExpansion: number;
  readonly concentration: number;
  readonly poreShape: number;
  readonly contactAngleDeg: number;
  readonly creditLrv: number;
  readonly highestTestKpa: number | null;
  readonly leastSettledMin: number;
  /** Smallest step that the gauge shows */
  readonly gaugeStepKpa: number;
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
  /** The one that was reckoned with */
  readonly airLiquidRatio: number | null;
  readonly lrv: number | null;
  readonly sensitivityLrv: number | null;
  readonly controlLimitKpaMin: number | null;
  readonly outcome: 'passed' | 'failed' | 'not counted';
  readonly reasons: readonly string[];
}

/**
 * Reads a pressure-decay test. It fails when the decay is over the control limit of the credit, at whatever pressure: what does not hold its pressure is not made sound by a poor test.
 * Else it does not count when its pressure was too low to open a pore of 3 µm, at the start or at the end, when it rose, when the air had not settled, when it went over what the
 * module bears, or when a decay as small as the limit cannot be read. Air that has not settled also explains a high decay: such a test is held again.
 *
 * The conversion ratio is that of the lowest pressure of the test, and of the least test pressure where it fell below. A decay that is smaller than the gauge can show proves what the
 * smallest step proves. The full decay counts, without taking off what diffuses.
 *
 * Source: 40 CFR 141.719(b): a control limit within the sensitivity of the test that assures the credit, and the unit out of service beyond it; when a test is not to be counted: common practice
 * (ASTM D6908 describes the test).
 *
 * @example judgeTest({ startKpa: 120, endKpa: 115, minutes: 10, settledMinutes: 5, temperatureC: 20 }, null).outcome // => "not counted"
 */
export function judgeTest(test: DecayTest, basis: IntegrityBasis | null): JudgedTest {
  const decayKpaMin = (test.startKpa - test.endKpa) / test.minutes;
  if (basis === null) {
    const reasons = [
      'Nothing says what the test is judged with: enter the design flow, the air volume, the highest transmembrane pressure and the credit of the unit',
    ];
    const none = { leastTestKpa: null, airLiquidRatio: null, lrv: null, sensitivityLrv: null, controlLimitKpaMin: null };
    return { decayKpaMin, ...none, outcome: 'not counted', reasons };
  }
  const leastTestKpa = leastTestPressureKpa({ ...basis, temperatureC: test.temperatureC });
  const removal = removalBasis(test, basis, leastTestKpa);
  const limit = controlLimitKpaMin(basis.creditLrv, removal);
  const smallest = basis.gaugeStepKpa / test.minutes;
  const figures = {
    decayKpaMin,
    leastTestKpa,
    airLiquidRatio: removal.airLiquidRatio,
    lrv: decayKpaMin < 0 ? null : logRemoval(Math.max(decayKpaMin, smallest), removal),
    sensitivityLrv: logRemoval(smallest, removal),
    controlLimitKpaMin: limit,
  };
  const doubts = doubtsOf(test, basis, { leastKpa: leastTestKpa, limit, smallest });
  const isSettled = test.settledMinutes >= basis.leastSettledMin;
  if (decayKpaMin > limit && isSettled) {
    const fell = `The pressure fell by ${decayKpaMin.toFixed(2)} kPa/min; the credit of ${basis.creditLrv} allows ${limit.toFixed(2)}`;
    return { ...figures, outcome: 'failed', reasons: [fell, ...doubts] };
  }
  return { ...figures, outcome: doubts.length > 0 ? 'not counted' : 'passed', reasons: doubts };
}

function removalBasis(test: DecayTest, basis: IntegrityBasis, leastKpa: number): RemovalBasis & { airLiquidRatio: number } {
  const { backPressureKpa, atmosphericKpa, highestTmpKpa, netExpansion, airVolumeL, concentration } = basis;
  const testKpa = Math.max(Math.min(test.startKpa, test.endKpa), leastKpa);
  const air = { testKpa, backPressureKpa, atmosphericKpa, tmpKpa: highestTmpKpa, temperatureC: test.temperatureC };
  const ratio = basis.airLiquidRatio ?? airLiquidRatio(air, netExpansion);
  return { designFlowLMin: (basis.designFlowM3h * 1000) / 60, airVolumeL, atmosphericKpa, airLiquidRatio: ratio, concentration };
}

function doubtsOf(
  { startKpa, endKpa, settledMinutes }: DecayTest,
  { highestTestKpa, leastSettledMin, creditLrv }: IntegrityBasis,
  { leastKpa, limit, smallest }: { leastKpa: number; limit: number; smallest: number },
): string[] {
  const least = leastKpa.toFixed(1);
  return [
    highestTestKpa !== null && Math.max(startKpa, endKpa) > highestTestKpa
      ? `The test went to ${Math.max(startKpa, endKpa)} kPa, over the ${highestTestKpa} kPa that the module bears: check the modules and the regulator`
      : '',
    startKpa < leastKpa ? `The test began at ${startKpa} kPa, below the ${least} kPa that open a pore of 3 µm` : '',
    startKpa >= leastKpa && endKpa < leastKpa
      ? `The pressure ended at ${endKpa} kPa, below the ${least} kPa that open a pore of 3 µm: begin higher, or test for a shorter time`
      : '',
    endKpa > startKpa ? 'The pressure rose: the temperature was not steady, or air was still coming in' : '',
    settledMinutes < leastSettledMin ? `The air had ${settledMinutes} min to settle, not ${leastSettledMin}` : '',
    smallest > limit
      ? `The gauge shows no decay below ${smallest.toFixed(3)} kPa/min in this time, and the credit of ${creditLrv} allows ${limit.toFixed(3)}: test for a longer time, or with a finer gauge`
      : '',
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
