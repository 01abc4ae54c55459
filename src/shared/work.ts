/** Why a job exists. */
export const JOB_KINDS = ['service', 'breakdown', 'request', 'follow-up'] as const;
export type JobKind = (typeof JOB_KINDS)[number];

/** `waiting` says for what, `dropped` says why. */
export const JOB_STATES = ['open', 'waiting', 'under way', 'finished', 'dropped'] as const;
export type JobState = (typeof JOB_STATES)[number];

/** `promised`: the client was told. */
export const VISIT_STATES = ['planned', 'promised', 'under way', 'finished', 'called off'] as const;
export type VisitState = (typeof VISIT_STATES)[number];

/** How bad a breakdown is, the worst first. */
export const SEVERITIES = ['danger', 'no water', 'less water', 'can wait'] as const;
export type Severity = (typeof SEVERITIES)[number];

export const SEVERITY_LABELS: Record<Severity, string> = {
  danger: 'Danger to people or water',
  'no water': 'No water',
  'less water': 'Less water',
  'can wait': 'Can wait',
};

/** The two that cannot wait are told at once, and again until somebody takes them. */
export const AT_ONCE: readonly Severity[] = ['danger', 'no water'];
