import type { TankForm } from '../../chemicals/core/tank-volume.js';
import type { Standing } from '../../shared/standing.js';
import type { TrendSeries } from '../../shared/trend-series.js';

/** Days at the site, both counted in. */
export interface Period {
  readonly from: string;
  readonly to: string;
}

export interface PeriodSkid {
  readonly id: string;
  readonly no: number;
  readonly name: string;
  readonly kind: 'skid' | 'shared';
  readonly serialNumber: string | null;
  readonly water: string;
  readonly ratedFlowM3h: number | null;
  readonly areaM2: number | null;
  readonly commissionedOn: string | null;
  readonly serviceState: string;
  readonly siteName: string;
  readonly clientName: string;
  readonly timeZone: string;
  /** Unset: retired or ended, so that nobody judges it any more */
  readonly standing: Standing | null;
  readonly reason: string;
  readonly nextTask: string | null;
  readonly nextOn: string | null;
}

export interface WaterMonth {
  /** YYYY-MM */
  readonly month: string;
  readonly filtrateM3: number | null;
  /** Days whose filtrate is known */
  readonly days: number;
  readonly hours: number;
  readonly cycles: number;
  /** Some of it was reckoned from flow and time */
  readonly estimated: boolean;
}

export interface PeriodClean {
  readonly at: Date;
  readonly day: string;
  readonly kind: 'CEB' | 'CIP';
  readonly chemical: string;
  readonly strengthMgL: number | null;
  readonly contactMinutes: number | null;
  readonly note: string;
}

export interface PeriodFitting {
  readonly positionName: string;
  readonly itemName: string;
  readonly serialNumber: string | null;
  readonly lot: string | null;
  readonly setCount: number;
  /** Unset where it was fitted before the period */
  readonly fittedAt: Date | null;
  readonly fittedBy: string;
  /** Unset where it is still fitted, or was removed after the period */
  readonly removedAt: Date | null;
  readonly removedBy: string | null;
  readonly removalReason: string | null;
}

export interface PeriodWork {
  readonly at: Date;
  readonly positionName: string | null;
  readonly task: string;
  readonly minutes: number | null;
  readonly by: string;
  readonly note: string;
}

export interface PeriodJob {
  readonly no: number;
  readonly kind: string;
  readonly title: string;
  readonly finishedAt: Date;
  readonly finishedBy: string | null;
}

export interface PeriodBreakdown {
  readonly jobNo: number;
  readonly title: string;
  readonly severity: string;
  readonly noticedAt: Date;
  readonly downFrom: Date | null;
  readonly restoredAt: Date | null;
  readonly cause: string;
  readonly remedy: string;
}

export interface PeriodTank extends TankForm {
  readonly name: string;
  readonly chemical: string;
  readonly deliveries: readonly { readonly at: string; readonly volumeL: number; readonly strengthGL: number | null; readonly lot: string | null }[];
  readonly dips: readonly { readonly at: string; readonly levelM: number }[];
  readonly runOutOn: string | null;
  readonly coverReason: string | null;
}

export interface PeriodTest {
  readonly at: Date;
  readonly by: string;
  readonly startKpa: number;
  readonly minutes: number;
  readonly decayKpaMin: number;
  readonly controlLimitKpaMin: number | null;
  readonly lrv: number | null;
  readonly outcome: string;
  readonly reasons: readonly string[];
}

export interface PeriodRepair {
  readonly at: Date;
  readonly positionName: string;
  readonly fibres: number;
  readonly areaLostM2: number | null;
  readonly by: string;
}

export interface PeriodCalibration {
  readonly at: Date;
  readonly positionName: string;
  readonly signal: string;
  readonly unit: string;
  readonly tolerance: number;
  readonly worstAsFound: number;
  readonly asFound: string;
  readonly worstAsLeft: number | null;
  readonly asLeft: string;
  readonly referenceInstrument: string;
  readonly certificateNo: string;
  readonly nextOn: string | null;
  readonly by: string;
}

export interface PeriodDoubt {
  readonly signal: string;
  readonly fromAt: Date | null;
  /** null: until the next calibration */
  readonly toAt: Date | null;
  readonly error: number;
  readonly reason: string;
}

export interface PeriodDue {
  readonly task: string;
  readonly positionName: string | null;
  readonly standing: Standing;
  readonly bestOn: string | null;
  readonly latestOn: string | null;
  readonly reason: string;
}

/** All that a report of a period says of one skid, as it is on record. */
export interface SkidPeriod {
  readonly skid: PeriodSkid;
  readonly trends: readonly TrendSeries[];
  readonly months: readonly WaterMonth[];
  readonly cleans: readonly PeriodClean[];
  readonly fittings: readonly PeriodFitting[];
  readonly work: readonly PeriodWork[];
  readonly states: readonly { readonly at: Date; readonly state: string; readonly by: string; readonly note: string }[];
  readonly jobs: readonly PeriodJob[];
  readonly breakdowns: readonly PeriodBreakdown[];
  readonly tanks: readonly PeriodTank[];
  readonly tests: readonly PeriodTest[];
  readonly repairs: readonly PeriodRepair[];
  readonly calibrations: readonly PeriodCalibration[];
  readonly doubts: readonly PeriodDoubt[];
  readonly dues: readonly PeriodDue[];
}
