import type { CycleFact } from '../core/cycle-fact.js';

type SqlType = 'int' | 'smallint' | 'boolean' | 'float8' | 'text' | 'uuid' | 'timestamptz' | 'date';

/** A table of facts that come in loads: which field stands in which column, what makes a row the same row, and what makes it another value. */
export interface RecordTable<Row extends object> {
  readonly name: string;
  readonly columns: { readonly [Field in keyof Row]-?: readonly [column: string, type: SqlType] };
  readonly key: readonly (keyof Row & string)[];
  /** Key fields that may be null */
  readonly nullableKey?: keyof Row & string;
  readonly compared: readonly (keyof Row & string)[];
  /** Replaced together with the compared ones */
  readonly carried: readonly (keyof Row & string)[];
}

export type CycleRow = Omit<CycleFact, 'byHand'> & { readonly skidNo: number };

const CYCLE_MEASURES = [
  'filtrationMinutes',
  'filtrateM3',
  'flowM3h',
  'feedKpa',
  'filtrateKpa',
  'concentrateKpa',
  'tmpKpa',
  'tmpStartKpa',
  'tmpEndKpa',
  'temperatureC',
  'cartridgeDpKpa',
  'feedTurbidityNtu',
] as const;

export const CYCLES: RecordTable<CycleRow> = {
  name: 'cycle',
  columns: {
    skidNo: ['skid_no', 'int'],
    startedAt: ['started_at', 'timestamptz'],
    endedAt: ['ended_at', 'timestamptz'],
    filtrationMinutes: ['filtration_minutes', 'float8'],
    filtrateM3: ['filtrate_m3', 'float8'],
    flowM3h: ['flow_m3h', 'float8'],
    feedKpa: ['feed_kpa', 'float8'],
    filtrateKpa: ['filtrate_kpa', 'float8'],
    concentrateKpa: ['concentrate_kpa', 'float8'],
    tmpKpa: ['tmp_kpa', 'float8'],
    tmpStartKpa: ['tmp_start_kpa', 'float8'],
    tmpEndKpa: ['tmp_end_kpa', 'float8'],
    temperatureC: ['temperature_c', 'float8'],
    cartridgeDpKpa: ['cartridge_dp_kpa', 'float8'],
    feedTurbidityNtu: ['feed_turbidity_ntu', 'float8'],
    quality: ['quality', 'smallint'],
  },
  key: ['skidNo', 'startedAt'],
  compared: ['endedAt', ...CYCLE_MEASURES],
  carried: ['quality'],
};

export interface CleanRow {
  readonly id: string;
  readonly clientId: string;
  readonly skidId: string;
  readonly kind: string;
  readonly at: Date;
  readonly chemical: string;
  readonly strengthMgL: number | null;
  readonly contactMinutes: number | null;
  readonly note: string;
}

export const CLEANS: RecordTable<CleanRow> = {
  name: 'clean',
  columns: {
    id: ['id', 'uuid'],
    clientId: ['client_id', 'uuid'],
    skidId: ['skid_id', 'uuid'],
    kind: ['kind', 'text'],
    at: ['at', 'timestamptz'],
    chemical: ['chemical', 'text'],
    strengthMgL: ['strength_mg_l', 'float8'],
    contactMinutes: ['contact_minutes', 'float8'],
    note: ['note', 'text'],
  },
  key: ['skidId', 'kind', 'at', 'chemical'],
  compared: ['strengthMgL', 'contactMinutes', 'note'],
  carried: [],
};

export interface MeterReadingRow {
  readonly meterId: string;
  readonly clientId: string;
  readonly at: Date;
  readonly kind: 'reading' | 'exchange';
  readonly value: number;
  readonly oldFinal: number | null;
  readonly readingError: number | null;
}

export const METER_READINGS: RecordTable<MeterReadingRow> = {
  name: 'meter_reading',
  columns: {
    meterId: ['meter_id', 'uuid'],
    clientId: ['client_id', 'uuid'],
    at: ['at', 'timestamptz'],
    kind: ['kind', 'text'],
    value: ['value', 'float8'],
    oldFinal: ['old_final', 'float8'],
    readingError: ['reading_error', 'float8'],
  },
  key: ['meterId', 'at'],
  compared: ['kind', 'value', 'oldFinal'],
  carried: ['readingError'],
};

export interface HandReadingRow {
  readonly id: string;
  readonly clientId: string;
  readonly skidId: string;
  readonly at: Date;
  readonly readBy: string;
  readonly minutesSinceBackwash: number | null;
  readonly note: string;
}

export const HAND_READINGS: RecordTable<HandReadingRow> = {
  name: 'hand_reading',
  columns: {
    id: ['id', 'uuid'],
    clientId: ['client_id', 'uuid'],
    skidId: ['skid_id', 'uuid'],
    at: ['at', 'timestamptz'],
    readBy: ['read_by', 'text'],
    minutesSinceBackwash: ['minutes_since_backwash', 'float8'],
    note: ['note', 'text'],
  },
  key: ['skidId', 'at'],
  compared: ['minutesSinceBackwash', 'note'],
  carried: [],
};

export interface HandValueRow {
  readonly handReadingId: string;
  readonly clientId: string;
  readonly signal: string;
  readonly value: number;
  readonly entered: number;
  readonly enteredUnit: string;
  readonly readingError: number | null;
}

export const HAND_VALUES: RecordTable<HandValueRow> = {
  name: 'hand_value',
  columns: {
    handReadingId: ['hand_reading_id', 'uuid'],
    clientId: ['client_id', 'uuid'],
    signal: ['signal', 'text'],
    value: ['value', 'float8'],
    entered: ['entered', 'float8'],
    enteredUnit: ['entered_unit', 'text'],
    readingError: ['reading_error', 'float8'],
  },
  key: ['handReadingId', 'signal'],
  compared: ['value'],
  carried: ['entered', 'enteredUnit', 'readingError'],
};

export interface ServiceEntryRow {
  readonly id: string;
  readonly clientId: string;
  readonly skidId: string;
  readonly positionId: string | null;
  readonly task: string;
  readonly at: Date;
  readonly minutes: number | null;
  readonly doneBy: string;
  readonly note: string;
}

export const SERVICE_ENTRIES: RecordTable<ServiceEntryRow> = {
  name: 'service_entry',
  columns: {
    id: ['id', 'uuid'],
    clientId: ['client_id', 'uuid'],
    skidId: ['skid_id', 'uuid'],
    positionId: ['position_id', 'uuid'],
    task: ['task', 'text'],
    at: ['at', 'timestamptz'],
    minutes: ['minutes', 'float8'],
    doneBy: ['done_by', 'text'],
    note: ['note', 'text'],
  },
  key: ['skidId', 'task', 'at', 'positionId'],
  nullableKey: 'positionId',
  compared: ['minutes', 'note'],
  carried: ['doneBy'],
};

export interface TankDipRow {
  readonly tankId: string;
  readonly clientId: string;
  readonly at: Date;
  readonly levelM: number;
  readonly strengthGL: number | null;
  readonly readBy: string;
  readonly readingError: number | null;
}

export const TANK_DIPS: RecordTable<TankDipRow> = {
  name: 'tank_dip',
  columns: {
    tankId: ['tank_id', 'uuid'],
    clientId: ['client_id', 'uuid'],
    at: ['at', 'timestamptz'],
    levelM: ['level_m', 'float8'],
    strengthGL: ['strength_g_l', 'float8'],
    readBy: ['read_by', 'text'],
    readingError: ['reading_error', 'float8'],
  },
  key: ['tankId', 'at'],
  compared: ['levelM', 'strengthGL'],
  carried: ['readBy', 'readingError'],
};

export interface TankDeliveryRow {
  readonly tankId: string;
  readonly clientId: string;
  readonly at: Date;
  readonly volumeL: number;
  readonly strengthGL: number | null;
  readonly lot: string | null;
  readonly product: string | null;
  readonly strengthValue: number | null;
  readonly strengthBasis: string | null;
  readonly densityKgL: number | null;
  readonly expiresOn: string | null;
  readonly fromTankId: string | null;
  readonly by: string;
}

export const TANK_DELIVERIES: RecordTable<TankDeliveryRow> = {
  name: 'tank_delivery',
  columns: {
    tankId: ['tank_id', 'uuid'],
    clientId: ['client_id', 'uuid'],
    at: ['at', 'timestamptz'],
    volumeL: ['volume_l', 'float8'],
    strengthGL: ['strength_g_l', 'float8'],
    lot: ['lot', 'text'],
    product: ['product', 'text'],
    strengthValue: ['strength_value', 'float8'],
    strengthBasis: ['strength_basis', 'text'],
    densityKgL: ['density_kg_l', 'float8'],
    expiresOn: ['expires_on', 'date'],
    fromTankId: ['from_tank_id', 'uuid'],
    by: ['by', 'text'],
  },
  key: ['tankId', 'at'],
  compared: ['volumeL', 'strengthGL', 'lot', 'product'],
  carried: ['strengthValue', 'strengthBasis', 'densityKgL', 'expiresOn', 'fromTankId', 'by'],
};
