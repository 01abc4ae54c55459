import type { Schemas } from '../api/client.js';

type Described = Schemas['JobReportDto'];
/** Rows of what somebody typed: the service judges them. */
type List = 'partsUsed' | 'partsFitted' | 'partsRemoved' | 'meters' | 'readings' | 'cleans' | 'integrityTests' | 'fibreRepairs' | 'calibrations' | 'followUps';

/** A job sheet as it is sent. */
export type JobReport = Omit<Described, List | 'breakdown' | 'serviceState'> & { readonly [list in List]: readonly object[] } & {
  readonly breakdown?: object;
  readonly serviceState?: string;
};
export type TaskReport = Schemas['TaskReportDto'];
