/** What the history of a skid is sorted into. */
export const HISTORY_KINDS = ['work', 'clean', 'integrity', 'part', 'breakdown', 'request', 'calibration', 'meter', 'state'] as const;
export type HistoryKind = (typeof HISTORY_KINDS)[number];
