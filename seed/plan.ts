import type { Chemical, ScenarioSite, ScenarioSkid, TankShape } from './types.js';

export type WaterKind = 'river' | 'well' | 'reservoir' | 'sea' | 'tertiary effluent';

/** Storms are shared by the sites of a region. */
export interface SitePlan extends ScenarioSite {
  readonly region: string;
  readonly warmerC: number;
}

/** When a run (of a cartridge set, between two recovery cleans) began, and when it meets its limit, both counted from the end of the record. */
export interface EndOfRun {
  readonly lastDaysAgo: number;
  readonly limitInDays: number;
}

export interface CartridgePlan extends EndOfRun {
  readonly limitKpa: number;
  readonly cleanKpa: number;
  readonly count: number;
  readonly itemCode: string;
  /** Changed by the calendar, well before the limit */
  readonly early: boolean;
}

export interface Stretch {
  readonly fromDaysAgo: number;
  readonly toDaysAgo: number;
}

export interface SensorFault extends Stretch {
  readonly reading: 'feedKpa' | 'filtrateKpa' | 'flowM3h' | 'temperatureC' | 'cartridgeDpKpa' | 'feedTurbidityNtu';
  readonly kind: 'stuck' | 'offset' | 'missing';
  /** Of an offset, in the unit of the reading */
  readonly by?: number;
}

export interface TankPlan {
  readonly key: string;
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
  /** Share by which the dosing pump has come to feed too much, growing over the last four months */
  readonly overFeed?: number;
  /** The level meets the heel so many days after the end of the record */
  readonly emptyInDays?: number;
  /** Who sees to it that it is filled; unset: the service company */
  readonly suppliedBy?: 'client';
}

/** What is put into the generator for one skid. All of it is invented. */
export interface SkidPlan {
  readonly key: string;
  readonly siteKey: string;
  readonly name: string;
  readonly water: WaterKind;
  readonly commissionedDaysAgo: number;
  readonly ratedFlowM3h: number;
  readonly areaM2: number;
  readonly modules: number;
  readonly moduleCode: string;
  readonly flowScheme: NonNullable<ScenarioSkid['flowScheme']>;
  readonly tmpFrom: NonNullable<ScenarioSkid['tmpFrom']>;
  readonly feedHeightM: number;
  readonly filtrateHeightM: number;
  readonly concentrateHeightM: number;
  readonly newLmhBar: number;
  /** Whether anyone wrote down the permeability when new */
  readonly baselineKnown: boolean;
  readonly cycleMinutes: number;
  readonly backwashMinutes: number;
  /** Resistance as shares of that of the new membrane: gained in one cycle and lost in the backwash; gained in one day and lost in a maintenance clean; lost for good in a year */
  readonly reversibleShare: number;
  readonly maintenanceShare: number;
  readonly lossPerYear: number;
  readonly ceb: { readonly everyDays: number; readonly acidEvery: number } | null;
  readonly cip: EndOfRun;
  readonly cartridge: CartridgePlan | null;
  /** Mean demand for water as a share of the rated flow, and its swing with the season */
  readonly demandShare: number;
  readonly summerSwing: number;
  readonly tanks: readonly TankPlan[];
  readonly readBy: 'gateway' | 'gauges in metric units' | 'gauges in US units';
  readonly hasSamples?: true;
  /** Where it ends after the record, the skid still stands */
  readonly laidUp?: Stretch & { readonly why: string };
  /** A feed pump that gives less and less; a new seal brings back part of it */
  readonly wear?: { readonly fromDaysAgo: number; readonly sharePerYear: number; readonly sealDaysAgo: number; readonly regained: number };
  /** One module was isolated for fibre breaks, then replaced */
  readonly isolatedModule?: Stretch;
  readonly faults?: readonly SensorFault[];
  /** The gateway was down: nothing was reported */
  readonly outages?: readonly Stretch[];
  /** Nobody has sent a reading since */
  readonly silentForDays?: number;
  readonly feedPumpMeter?: 'rolls over' | 'was exchanged';
}

/** Equipment of a site that several skids share. */
export interface SharedPlan {
  readonly key: string;
  readonly siteKey: string;
  readonly servesKeys: readonly string[];
  readonly name: string;
  readonly machine: 'CIP pump' | 'compressor';
  readonly commissionedDaysAgo: number;
  readonly tanks: readonly TankPlan[];
}
