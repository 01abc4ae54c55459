import type { CycleFact } from '../src/intake/core/cycle-fact.js';
import type { ItemKind } from '../src/shared/item-kinds.js';
import type { PositionKind } from '../src/shared/position-kinds.js';
import type { SignalCode } from '../src/shared/signals.js';
import type { UnitCode } from '../src/shared/units.js';
import type { LibraryRule } from '../src/upkeep/library/library.js';
import type { ScenarioWork } from './work-types.js';

/** Everything of the demo refers to everything else by keys of its own; `by` and `readBy` are keys of people. */
export interface Scenario {
  readonly demo: true;
  readonly company: string;
  /** The record lies between these two, as far as a skid was commissioned by then */
  readonly from: Date;
  readonly until: Date;
  readonly clients: readonly ScenarioClient[];
  readonly sites: readonly ScenarioSite[];
  readonly gateways: readonly ScenarioGateway[];
  readonly people: readonly ScenarioPerson[];
  readonly skids: readonly ScenarioSkid[];
  readonly stateChanges: readonly ScenarioStateChange[];
  readonly positions: readonly ScenarioPosition[];
  readonly items: readonly ScenarioItem[];
  readonly fittings: readonly ScenarioFitting[];
  readonly cleans: readonly ScenarioClean[];
  readonly meters: readonly ScenarioMeter[];
  readonly tanks: readonly ScenarioTank[];
  readonly rules: readonly ScenarioRule[];
  readonly serviceEntries: readonly ScenarioServiceEntry[];
  readonly handReadings: readonly ScenarioHandReading[];
  /** Stock, visits, proofs and breakdowns */
  readonly work: ScenarioWork;
  /** Keys of the skids whose gateway reports cycles */
  readonly skidsWithCycles: readonly string[];
  /** In order of time, made while they are read */
  cyclesOf(skidKey: string): Generator<CycleFact>;
  /** Keys of the skids whose gateway also keeps samples, and the first moment of those */
  readonly skidsWithSamples: readonly string[];
  readonly samplesFrom: Date;
  /** One row a minute; consistent with the cycles of the same time, which can be segmented from them again */
  samplesOf(skidKey: string): Generator<ScenarioSample>;
}

export interface ScenarioClient {
  readonly key: string;
  readonly name: string;
  readonly note: string;
}

export interface ScenarioSite {
  readonly key: string;
  readonly clientKey: string;
  readonly name: string;
  readonly latitude: number;
  readonly longitude: number;
  readonly timeZone: string;
  readonly accessHours: string;
}

export interface ScenarioGateway {
  readonly siteKey: string;
  readonly name: string;
}

export interface ScenarioPerson {
  readonly key: string;
  readonly name: string;
  readonly email: string;
  readonly role: 'manager' | 'storekeeper' | 'technician' | 'client';
  readonly clientKey: string | null;
  readonly siteKey: string | null;
  readonly mayEnterReadings: boolean;
}

export interface ScenarioSkid {
  readonly key: string;
  readonly siteKey: string;
  /** Shared equipment has neither flow nor area */
  readonly kind: 'skid' | 'shared';
  readonly servesKeys: readonly string[];
  readonly name: string;
  readonly serialNumber: string;
  readonly water: string;
  readonly ratedFlowM3h: number | null;
  readonly flowScheme: 'dead-end' | 'cross-flow' | 'submerged' | null;
  readonly tmpFrom: 'pressures' | 'measured' | null;
  readonly feedHeightM: number;
  readonly filtrateHeightM: number;
  readonly concentrateHeightM: number;
  /** Active area from a day on: a module was isolated for a while; empty for shared equipment */
  readonly areas: readonly { readonly fromDay: string; readonly areaM2: number }[];
  /** YYYY-MM-DD */
  readonly commissionedOn: string;
  readonly baselineLmhBar: number | null;
  readonly referenceC: number;
  readonly permeabilityLimitFraction: number;
  readonly cartridgeLimitKpa: number | null;
  readonly cartridgeReferenceFlowM3h: number | null;
  readonly serviceState: 'in service' | 'laid up';
  readonly note: string;
}

export interface ScenarioStateChange {
  readonly skidKey: string;
  readonly at: Date;
  readonly state: 'in service' | 'laid up';
  readonly by: string;
  readonly note: string;
}

export interface ScenarioPosition {
  readonly key: string;
  readonly skidKey: string;
  readonly parentKey: string | null;
  readonly kind: PositionKind;
  /** Unique on its skid */
  readonly name: string;
  readonly strokesPerCycle: number | null;
  /** What a transmitter measures */
  readonly signal: SignalCode | null;
}

export interface ScenarioItem {
  readonly code: string;
  readonly name: string;
  readonly kind: ItemKind;
  /** UN/CEFACT Recommendation 20: C62 one, LTR litre */
  readonly unit: 'C62' | 'LTR';
}

export interface ScenarioFitting {
  readonly positionKey: string;
  readonly itemCode: string;
  readonly serialNumber: string | null;
  readonly setCount: number;
  readonly lot: string | null;
  readonly fittedAt: Date;
  readonly fittedBy: string;
  readonly removedAt: Date | null;
  readonly removedBy: string | null;
  readonly removalReason: string | null;
}

export type Chemical = 'sodium hypochlorite' | 'citric acid' | 'sodium hydroxide';

/** A clean with two chemicals in one solution is two records of one moment. */
export interface ScenarioClean {
  readonly skidKey: string;
  readonly kind: 'CEB' | 'CIP';
  readonly at: Date;
  readonly chemical: Chemical;
  readonly strengthMgL: number | null;
  readonly contactMinutes: number;
}

/** Readings in order of time. An hour meter of a skid that is read by hand has a reading at the moment of every hand reading. */
export interface ScenarioMeter {
  readonly positionKey: string;
  readonly kind: 'run hours' | 'starts' | 'strokes';
  readonly modulus: number | null;
  /** Half of the smallest step of the display */
  readonly readingError: number;
  readonly readings: readonly ScenarioMeterReading[];
}

export type ScenarioMeterReading =
  | { readonly kind: 'reading'; readonly at: Date; readonly value: number }
  | { readonly kind: 'exchange'; readonly at: Date; readonly oldFinal: number; readonly newInitial: number };

export type TankShape = 'vertical-cylinder' | 'horizontal-cylinder' | 'rectangular' | 'drum';

export interface ScenarioTank {
  readonly key: string;
  readonly skidKey: string;
  readonly name: string;
  readonly chemical: Chemical;
  readonly shape: TankShape;
  readonly diameterM: number | null;
  readonly lengthM: number | null;
  readonly widthM: number | null;
  readonly heightM: number;
  readonly capacityL: number;
  readonly heelL: number;
  readonly strengthGL: number;
  readonly storageTemperatureC: number;
  readonly doseMgL: number | null;
  readonly litresPerCeb: number | null;
  readonly litresPerCip: number | null;
  /** Unset: the service company */
  readonly suppliedBy?: 'client';
  readonly dips: readonly { readonly at: Date; readonly levelM: number; readonly readingError: number; readonly readBy: string }[];
  readonly deliveries: readonly { readonly at: Date; readonly volumeL: number; readonly strengthGL: number; readonly lot: string; readonly by: string }[];
}

/** A rule of the library with what the demo company takes for it. */
export interface ScenarioRule extends LibraryRule {
  readonly expectedMinutes: number;
  readonly parts: readonly { readonly itemCode: string; readonly quantity: number }[];
}

export interface ScenarioServiceEntry {
  readonly skidKey: string;
  /** Null: the skid as a whole */
  readonly positionKey: string | null;
  /** Word for word the task of a rule, or other work */
  readonly task: string;
  readonly at: Date;
  /** What the hour meter of the position showed, where it has one */
  readonly meterValue: number | null;
  readonly minutes: number;
  readonly by: string;
  readonly note: string;
}

export interface HandValue {
  readonly value: number;
  readonly unit: UnitCode;
  /** Of the gauge or display, in the same unit */
  readonly smallestDivision: number;
}

export interface ScenarioHandReading {
  readonly skidKey: string;
  readonly at: Date;
  readonly readBy: string;
  readonly minutesSinceBackwash: number | null;
  readonly values: Readonly<Partial<Record<SignalCode, HandValue>>>;
}

export interface ScenarioSample {
  readonly at: Date;
  readonly values: Readonly<Partial<Record<SignalCode, number>>>;
}
