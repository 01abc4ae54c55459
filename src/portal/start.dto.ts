import { View } from '../app/index.js';
import type { ServiceState } from '../shared/service-states.js';
import type { Standing } from '../shared/standing.js';
import type { JobKind, JobState, Severity, VisitState } from '../shared/work.js';

/** Filtrate of the last 30 whole days at the site, and what the figure rests on. */
export class StartWaterView extends View {
  /** Null: no day tells it */
  readonly m3!: number | null;
  /** The first of the 30 days */
  readonly from!: string;
  /** The last of the 30 days: yesterday at the site */
  readonly to!: string;
  /** Days whose filtrate is known; the others are not in the figure */
  readonly days!: number;
  /** Of these, days whose filtrate was reckoned from flow and time, at least in part */
  readonly estimatedDays!: number;
  /** Of these, days that are known from readings by hand */
  readonly byHandDays!: number;
}

/** A skid, or shared equipment, as its owner wants to know it. */
export class StartSkidView extends View {
  readonly skidId!: string;
  readonly name!: string;
  readonly kind!: 'skid' | 'shared';
  readonly serviceState!: ServiceState;
  readonly standing!: Standing;
  /** What it needs first; null: nothing is known to come */
  readonly nextTask!: string | null;
  readonly nextOn!: string | null;
  /** No reading for too long to say how it is */
  readonly silent!: boolean;
  readonly lastReadingAt!: Date | null;
  /** The worst of its breakdowns that are not over */
  readonly breakdown!: Severity | null;
  /** Null for shared equipment, which makes no filtrate */
  readonly water!: StartWaterView | null;
}

export class StartVisitWorkView extends View {
  readonly skidName!: string;
  readonly title!: string;
}

/** The next visit that was promised. */
export class StartVisitView extends View {
  readonly id!: string;
  readonly onDay!: string;
  readonly startTime!: string;
  readonly state!: VisitState;
  readonly noteToClient!: string;
  readonly people!: string[];
  /** What it is for */
  readonly work!: StartVisitWorkView[];
}

/** A request or a breakdown that is not over. */
export class StartRequestView extends View {
  readonly jobId!: string;
  readonly no!: number;
  readonly kind!: JobKind;
  readonly title!: string;
  readonly skidName!: string;
  readonly state!: JobState;
  /** What it waits for */
  readonly stateNote!: string;
  /** The day of the visit that was promised for it */
  readonly visitOn!: string | null;
  readonly createdAt!: Date;
  readonly createdBy!: string;
}

export class StartSiteView extends View {
  readonly siteId!: string;
  readonly name!: string;
  /** IANA time zone of the site */
  readonly timeZone!: string;
  readonly skids!: StartSkidView[];
  readonly nextVisit!: StartVisitView | null;
  /** The latest five that are not over */
  readonly requests!: StartRequestView[];
  /** How many are not over */
  readonly openRequests!: number;
}

/** What a person of a client sees first. */
export class StartView extends View {
  readonly clientId!: string;
  readonly clientName!: string;
  readonly sites!: StartSiteView[];
}
