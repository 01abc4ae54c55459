import type { FailureMechanism, FailureMode } from '../src/shared/failure-terms.js';
import type { Severity } from '../src/shared/work.js';

/** Stock, visits, proofs and breakdowns of the demo, by the same keys as the rest of the scenario. */
export interface ScenarioWork {
  readonly places: readonly ScenarioPlace[];
  readonly stockPosts: readonly ScenarioStockPost[];
  readonly visits: readonly ScenarioVisit[];
  readonly breakdowns: readonly ScenarioBreakdown[];
  readonly integritySetups: readonly ScenarioIntegritySetup[];
  readonly decayTests: readonly ScenarioDecayTest[];
  readonly fibreRepairs: readonly ScenarioFibreRepair[];
  readonly calibrations: readonly ScenarioCalibration[];
  readonly noticeChoices: readonly ScenarioNoticeChoice[];
}

export interface ScenarioPlace {
  readonly key: string;
  readonly name: string;
  readonly kind: 'store' | 'van' | 'site';
  /** Whose van it is */
  readonly personKey: string | null;
  readonly siteKey: string | null;
  readonly note: string;
}

/** In order of time. */
export interface ScenarioStockPost {
  readonly kind: 'receive' | 'transfer';
  readonly at: Date;
  readonly by: string;
  readonly note: string;
  readonly moves: readonly {
    readonly itemCode: string;
    readonly lot: string | null;
    readonly quantity: number;
    readonly fromKey: string | null;
    readonly toKey: string | null;
  }[];
}

/** A visit of the past, with all that was done at its site on its day. */
export interface ScenarioVisit {
  readonly siteKey: string;
  /** YYYY-MM-DD and HH:MM at the site */
  readonly onDay: string;
  readonly startTime: string;
  readonly minutes: number;
  readonly people: readonly string[];
  readonly finishedAt: Date;
  readonly signedBy: string;
  readonly jobs: readonly ScenarioJob[];
}

export interface ScenarioJob {
  readonly skidKey: string;
  readonly by: string;
  readonly startedAt: Date;
  readonly finishedAt: Date;
  readonly minutes: number;
  readonly tasks: readonly {
    readonly positionKey: string | null;
    readonly task: string;
    readonly note: string;
    readonly dueOn: string;
    readonly latestOn: string;
    readonly doneAt: Date;
  }[];
}

/** A breakdown that is over. */
export interface ScenarioBreakdown {
  readonly skidKey: string;
  readonly positionKey: string | null;
  readonly title: string;
  readonly request: string;
  readonly severity: Severity;
  readonly source: 'client' | 'technician' | 'staff';
  readonly reportedBy: string;
  readonly takenBy: string;
  readonly noticedAt: Date;
  readonly downFrom: Date;
  readonly restoredAt: Date;
  readonly repairMinutes: number | null;
  readonly endedBy: 'telephone' | 'visit';
  readonly telephone: string;
  readonly failureMode: FailureMode;
  readonly mechanism: FailureMechanism;
  readonly cause: string;
  readonly remedy: string;
}

export interface ScenarioIntegritySetup {
  readonly skidKey: string;
  readonly designFlowM3h: number;
  readonly airVolumeL: number;
  readonly highestTmpKpa: number;
  readonly backPressureKpa: number;
  readonly creditLrv: number;
  readonly baselineKpaMin: number;
  readonly highestTestKpa: number;
  readonly fibresPerModule: number;
}

export interface ScenarioDecayTest {
  readonly skidKey: string;
  readonly at: Date;
  readonly by: string;
  readonly startKpa: number;
  readonly endKpa: number;
  readonly minutes: number;
  readonly settledMinutes: number;
  readonly temperatureC: number;
  readonly note: string;
}

export interface ScenarioFibreRepair {
  readonly skidKey: string;
  readonly positionKey: string;
  readonly at: Date;
  readonly by: string;
  readonly fibres: number;
  readonly areaLostM2: number;
  readonly note: string;
}

/** In the unit in which the signal is stored. */
export interface ScenarioCalibration {
  readonly positionKey: string;
  readonly at: Date;
  readonly by: string;
  readonly tolerance: number;
  readonly referenceInstrument: string;
  readonly certificateNo: string;
  readonly points: readonly { readonly reference: number; readonly asFound: number; readonly asLeft: number | null }[];
  readonly nextOn: string;
  readonly note: string;
}

export interface ScenarioNoticeChoice {
  readonly personKey: string;
  readonly digest: 'off' | 'daily' | 'weekly';
  readonly hour: number;
  readonly timeZone: string;
  readonly atOnce: boolean;
}
