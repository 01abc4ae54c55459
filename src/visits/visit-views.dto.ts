import { View } from '../app/index.js';
import type { JobKind, JobState, VisitState } from '../shared/work.js';
import type { Consequence } from './core/consequences.js';

export class VisitPersonView extends View {
  readonly personId!: string;
  readonly name!: string;
}

export class VisitJobView extends View {
  readonly id!: string;
  readonly no!: number;
  readonly title!: string;
  readonly kind!: JobKind;
  readonly state!: JobState;
  readonly skidId!: string;
  readonly skidName!: string;
  readonly latestOn!: string | null;
}

/** Who goes where, when, and what for. */
export class VisitView extends View {
  readonly id!: string;
  readonly no!: number;
  readonly clientId!: string;
  readonly clientName!: string;
  readonly siteId!: string;
  readonly siteName!: string;
  readonly timeZone!: string;
  readonly accessHours!: string;
  /** The day at the site */
  readonly onDay!: string;
  /** At the site */
  readonly startTime!: string;
  readonly startsAt!: Date;
  readonly endsAt!: Date;
  /** Of work */
  readonly minutes!: number;
  /** Of a break within it, on top of the work */
  readonly breakMinutes!: number;
  readonly state!: VisitState;
  /** For the department; null: not the caller’s to read */
  readonly note!: string | null;
  readonly noteToClient!: string;
  readonly promisedAt!: Date | null;
  readonly finishedAt!: Date | null;
  readonly people!: VisitPersonView[];
  readonly jobs!: VisitJobView[];
  readonly version!: number;
}

export class VisitsPageView extends View {
  readonly items!: VisitView[];
  readonly next!: string | null;
}

export class ConsequenceView extends View {
  readonly about!: Consequence['about'];
  readonly text!: string;
}

export class VisitChangeView extends View {
  readonly at!: Date;
  readonly by!: string;
  /** made, state, time, minutes, people, jobs, notes */
  readonly what!: string;
  readonly from!: string;
  readonly to!: string;
  readonly note!: string;
}

export class VisitDetailView extends VisitView {
  /** What follows from going there then; empty for a client */
  readonly consequences!: ConsequenceView[];
  /** A client reads what was told them */
  readonly changes!: VisitChangeView[];
}

/** What a change would bring, without making it. */
export class VisitCheckView extends View {
  readonly minutes!: number;
  readonly breakMinutes!: number;
  readonly startsAt!: Date;
  readonly endsAt!: Date;
  readonly consequences!: ConsequenceView[];
}
