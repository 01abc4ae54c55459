/** How something failed, by its code in ISO 14224:2016. */
interface FailureTerm {
  readonly code: string;
  readonly label: string;
  readonly group: string;
}

const mechanism = (group: string) => (code: string, label: string) => ({ code, label, group });
const mechanical = mechanism('Mechanical');
const material = mechanism('Material');
const instrumentation = mechanism('Instrumentation');
const electrical = mechanism('Electrical');
const external = mechanism('External influence');

/**
 * Failure mechanisms: the process that led to the failure. What is not known is left out, not guessed.
 *
 * Source: ISO 14224:2016, failure-mechanism codes; the five electrical names from memory.
 */
export const FAILURE_MECHANISMS = [
  mechanical('1.1', 'Leakage'),
  mechanical('1.2', 'Vibration'),
  mechanical('1.3', 'Clearance or alignment'),
  mechanical('1.4', 'Deformation'),
  mechanical('1.5', 'Looseness'),
  mechanical('1.6', 'Sticking'),
  material('2.1', 'Cavitation'),
  material('2.2', 'Corrosion'),
  material('2.3', 'Erosion'),
  material('2.4', 'Wear'),
  material('2.5', 'Breakage'),
  material('2.6', 'Fatigue'),
  material('2.7', 'Overheating'),
  material('2.8', 'Burst'),
  instrumentation('3.1', 'Control failure'),
  instrumentation('3.2', 'No signal'),
  instrumentation('3.3', 'Out of adjustment'),
  instrumentation('3.4', 'Software'),
  instrumentation('3.5', 'Common cause'),
  electrical('4.1', 'Short circuit'),
  electrical('4.2', 'Open circuit'),
  electrical('4.3', 'No power'),
  electrical('4.4', 'Faulty power'),
  electrical('4.5', 'Earth fault'),
  external('5.1', 'Blockage'),
  external('5.2', 'Contamination or fouling'),
  external('5.3', 'Miscellaneous external'),
] as const satisfies readonly FailureTerm[];

export type FailureMechanism = (typeof FAILURE_MECHANISMS)[number]['code'];
export const FAILURE_MECHANISM_CODES: readonly FailureMechanism[] = FAILURE_MECHANISMS.map(({ code }) => code);

/**
 * Failure modes: how the failure shows.
 *
 * Source: ISO 14224:2016, modes of rotating equipment and valves, in words; breakdown, low output and structural deficiency from memory.
 */
export const FAILURE_MODES = [
  'external leakage',
  'plugged or choked',
  'parameter deviation',
  'vibration',
  'overheating',
  'fail to start',
  'fail to stop',
  'spurious stop',
  'breakdown',
  'low output',
  'structural deficiency',
] as const;
export type FailureMode = (typeof FAILURE_MODES)[number];

/**
 * The mechanism in words, with its code.
 *
 * @example mechanismInWords('1.1') // => "Leakage (1.1)"
 * @example mechanismInWords(null) // => "not known"
 */
export function mechanismInWords(code: string | null): string {
  const known = FAILURE_MECHANISMS.find((each) => each.code === code);
  return known === undefined ? 'not known' : `${known.label} (${known.code})`;
}
