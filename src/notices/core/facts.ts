import type { Day } from '../../shared/day.js';
import type { Standing } from '../../shared/standing.js';
import type { Severity, VisitState } from '../../shared/work.js';

/** What notices tell of, as it is read from the records. */
export interface DueFact {
  readonly skidName: string;
  readonly siteName: string;
  readonly task: string;
  readonly standing: 'overdue' | 'due';
  readonly bestOn: Day | null;
  readonly latestOn: Day | null;
  readonly reason: string;
}

export interface BreakdownFact {
  readonly no: number;
  readonly title: string;
  readonly severity: Severity;
  readonly skidName: string;
  readonly siteName: string;
  readonly clientName: string;
  readonly timeZone: string;
  readonly noticedAt: Date;
  readonly takenBy: string | null;
}

export interface VisitFact {
  readonly no: number;
  readonly onDay: Day;
  readonly startTime: string;
  readonly minutes: number;
  readonly state: VisitState;
  readonly siteName: string;
  readonly clientName: string;
  readonly noteToClient: string;
  readonly people: readonly string[];
  readonly jobs: readonly { readonly no: number; readonly title: string; readonly skidName: string }[];
}

/** What a client said to a day that was proposed. */
export interface AnswerFact {
  readonly visitNo: number;
  readonly onDay: Day;
  readonly startTime: string;
  readonly siteName: string;
  readonly clientName: string;
  readonly answer: 'confirmed' | 'declined';
  readonly reason: string;
  readonly wishedDays: readonly Day[];
  readonly answeredBy: string;
}

export interface ReportFact {
  readonly jobNo: number;
  readonly title: string;
  readonly skidName: string;
  readonly by: string;
  readonly state: 'held' | 'second';
}

export interface TankFact {
  readonly tankName: string;
  readonly chemical: string;
  readonly skidName: string;
  readonly siteName: string;
  readonly shortOn: Day;
}

/** A tank that the client fills, with what it asks for: how much, and by what day */
export interface SupplyFact {
  readonly tankName: string;
  readonly skidName: string;
  readonly siteName: string;
  readonly asked: string;
}

export interface ShortItemFact {
  readonly code: string;
  readonly name: string;
  readonly unit: string;
  readonly needed: string;
  readonly onHand: string;
}

export interface FinishedJobFact {
  readonly no: number;
  readonly title: string;
  readonly skidName: string;
  readonly finishedOn: Day;
}

export interface SkidFact {
  readonly skidName: string;
  readonly siteName: string;
  readonly serviceState: string;
  readonly standing: Standing;
  /** The most urgent one */
  readonly task: string | null;
}
