/** What a position on a skid can be. Upkeep rules attach to a kind. */
export const POSITION_KINDS = [
  'feed pump',
  'backwash pump',
  'CIP pump',
  'blower',
  'compressor',
  'dosing pump',
  'pre-filter',
  'module',
  'valve',
  'actuator',
  'transmitter',
  'motor',
  'seal',
  'tank',
  'other',
] as const;
export type PositionKind = (typeof POSITION_KINDS)[number];
