/** What kind of work a task is: by it the record is kept and the cautions are chosen. */
export const TASK_KINDS = [
  'service',
  'part change',
  'clean',
  'calibration',
  'integrity test',
  'inspection',
  'lay-up',
  'preservative',
  'restart',
  'repair',
] as const;
export type TaskKind = (typeof TASK_KINDS)[number];

/** What a step asks of the technician: do it, answer yes or no, read a value, take a photograph. */
export const STEP_KINDS = ['do', 'check', 'reading', 'photograph'] as const;
export type StepKind = (typeof STEP_KINDS)[number];

export interface SheetStep {
  /** 1, 2, 3, in the order of the work */
  readonly no: number;
  readonly kind: StepKind;
  readonly text: string;
  /** It keeps people or water safe: it can be left out only with a reason that is kept */
  readonly safety: boolean;
  /** Of a reading: the code of the signal where it is one, its unit (UCUM), and between which values it is as it should be */
  readonly signal: string | null;
  readonly unit: string | null;
  readonly low: number | null;
  readonly high: number | null;
}

/** How much of a chemical a task takes. */
export interface SheetChemical {
  readonly chemical: string;
  readonly litres: number;
  readonly strength: string;
}

/** What else than its kind and chemicals makes a task dangerous. */
export const HAZARDS = [
  'electricity',
  'stored pressure',
  'compressed air',
  'hot solution',
  'heavy lift',
  'confined space',
  'work at height',
  'working alone',
  'moving machinery',
] as const;
export type Hazard = (typeof HAZARDS)[number];
