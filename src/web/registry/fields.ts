import { POSITION_KINDS } from '../../shared/position-kinds.js';
import { SERVICE_STATES } from '../../shared/service-states.js';
import { SIGNALS } from '../../shared/signals.js';
import type { Dimension } from '../../shared/units.js';
import { registryWords } from '../words/registry.js';
import { words } from '../words.js';
import { levelLines, levelRows } from './level-table.js';
import type { RecordField } from './record-fields.js';

const { fields, hints } = registryWords;
const optionsOf = (values: readonly string[], names: Readonly<Record<string, string>> = {}) => values.map((value) => ({ value, label: names[value] ?? value }));
const unknown = { value: '', label: registryWords.unknown };
/** What only counts or switches has no transmitter that could be compared with a reference. */
const isMeasured = (dimension: Dimension) => !['count', 'state', 'duration'].includes(dimension);
const NOTE: RecordField = { name: 'note', label: fields.note, hint: hints.note, type: 'lines' };
const NAME: RecordField = { name: 'name', label: fields.name, required: true };

export const CLIENT_FIELDS: readonly RecordField[] = [NAME, NOTE];

export const SITE_FIELDS: readonly RecordField[] = [
  NAME,
  { name: 'timeZone', label: fields.timeZone, hint: hints.timeZone, required: true, start: Intl.DateTimeFormat().resolvedOptions().timeZone },
  { name: 'accessHours', label: fields.accessHours },
  { name: 'latitude', label: fields.latitude, type: 'number' },
  { name: 'longitude', label: fields.longitude, type: 'number' },
  NOTE,
];

export const SITE_PRICE_FIELDS: readonly RecordField[] = [
  { name: 'unplanned', label: fields.unplanned, hint: hints.unplanned, empty: 'null' },
  { name: 'recoveryClean', label: fields.recoveryClean, empty: 'null' },
  { name: 'energyKwh', label: fields.energyKwh, hint: hints.price, empty: 'null' },
  { name: 'waterM3', label: fields.waterM3, empty: 'null' },
  { name: 'lostShare', label: fields.lostShare, hint: hints.lostShare, type: 'number' },
];

const SKID_FIELDS: readonly RecordField[] = [
  NAME,
  { name: 'serialNumber', label: fields.serialNumber, empty: 'null' },
  { name: 'water', label: fields.water },
  { name: 'ratedFlowM3h', label: fields.ratedFlow, type: 'number' },
  { name: 'flowScheme', label: fields.flowScheme, options: [unknown, ...optionsOf(['dead-end', 'cross-flow', 'submerged'])] },
  { name: 'tmpFrom', label: fields.tmpFrom, options: [unknown, ...optionsOf(['pressures', 'measured'], registryWords.tmpFrom)] },
  { name: 'commissionedOn', label: fields.commissionedOn, type: 'day' },
  { name: 'baselineLmhBar', label: fields.baseline, hint: hints.baseline, type: 'number' },
  { name: 'referenceC', label: fields.referenceC, type: 'number', empty: 'left out' },
  { name: 'permeabilityLimitFraction', label: fields.limitFraction, hint: hints.limitFraction, type: 'number', empty: 'left out' },
  { name: 'cartridgeLimitKpa', label: fields.cartridgeLimit, type: 'number' },
  { name: 'cartridgeReferenceFlowM3h', label: fields.cartridgeFlow, type: 'number' },
  { name: 'feedHeightM', label: fields.feedHeight, hint: hints.height, type: 'number', empty: 'left out' },
  { name: 'filtrateHeightM', label: fields.filtrateHeight, type: 'number', empty: 'left out' },
  { name: 'concentrateHeightM', label: fields.concentrateHeight, type: 'number', empty: 'left out' },
  NOTE,
];
export const SKID_EDIT_FIELDS = SKID_FIELDS;
export const NEW_SKID_FIELDS: readonly RecordField[] = [
  { name: 'kind', label: fields.kind, options: optionsOf(['skid', 'shared'], registryWords.kinds), start: 'skid' },
  { name: 'serviceState', label: words.skid.state, options: optionsOf(SERVICE_STATES), start: 'in service' },
  ...SKID_FIELDS,
];

export const AREA_FIELDS: readonly RecordField[] = [
  { name: 'fromDay', label: fields.fromDay, type: 'day', required: true },
  { name: 'areaM2', label: fields.area, hint: hints.area, type: 'number', required: true },
];

export const STATE_FIELDS: readonly RecordField[] = [
  { name: 'state', label: words.skid.state, options: optionsOf(SERVICE_STATES), start: 'in service' },
  { name: 'note', label: fields.why },
];

export const POSITION_FIELDS: readonly RecordField[] = [
  NAME,
  { name: 'kind', label: fields.kind, options: optionsOf(POSITION_KINDS), start: 'feed pump' },
  { name: 'strokesPerCycle', label: fields.strokes, type: 'number', only: { field: 'kind', is: ['valve', 'actuator'] } },
  {
    name: 'signal',
    label: fields.signal,
    hint: hints.signal,
    options: [unknown, ...Object.entries(SIGNALS).flatMap(([value, { label, dimension }]) => (isMeasured(dimension) ? [{ value, label }] : []))],
    only: { field: 'kind', is: ['transmitter'] },
  },
];

const LEVEL_TABLE: RecordField = {
  name: 'levelTable',
  label: fields.levelTable,
  hint: hints.levelTable,
  type: 'lines',
  required: true,
  empty: 'null',
  only: { field: 'shape', is: ['table'] },
  parse: (text) => {
    const read = levelRows(text);
    return 'rows' in read ? { value: read.rows } : { problem: registryWords.unreadLevel(read.unreadLine) };
  },
  write: (value) => levelLines(value as Parameters<typeof levelLines>[0]),
};

export const TANK_FIELDS: readonly RecordField[] = [
  NAME,
  { name: 'chemical', label: fields.chemical, required: true },
  {
    name: 'shape',
    label: fields.shape,
    options: optionsOf(['vertical-cylinder', 'horizontal-cylinder', 'rectangular', 'drum', 'table'], registryWords.shapes),
    start: 'vertical-cylinder',
  },
  { name: 'heightM', label: fields.height, type: 'number', required: true },
  { name: 'diameterM', label: fields.diameter, hint: hints.diameter, type: 'number' },
  { name: 'lengthM', label: fields.length, hint: hints.length, type: 'number' },
  { name: 'widthM', label: fields.width, hint: hints.width, type: 'number' },
  LEVEL_TABLE,
  { name: 'capacityL', label: fields.capacity, type: 'number', required: true },
  { name: 'heelL', label: fields.heel, type: 'number', empty: 'left out' },
  { name: 'strengthGL', label: fields.strength, type: 'number' },
  { name: 'storageC', label: fields.storage, type: 'number' },
  { name: 'doseMgL', label: fields.dose, type: 'number' },
  { name: 'litresPerCeb', label: fields.perCeb, type: 'number' },
  { name: 'litresPerCip', label: fields.perCip, type: 'number' },
  { name: 'suppliedBy', label: fields.suppliedBy, options: optionsOf(['us', 'client'], registryWords.tankSuppliers), start: 'us' },
];
