import { IsIn, IsOptional, IsUUID } from 'class-validator';
import { PageQuery, View } from '../app/index.js';
import { STANDINGS, type Standing } from '../shared/standing.js';

export class FleetQuery extends PageQuery {
  @IsOptional()
  @IsUUID()
  clientId?: string;

  @IsOptional()
  @IsIn(STANDINGS)
  standing?: Standing;
}

/** One skid of the fleet, with what it needs next. */
export class FleetSkidView extends View {
  readonly skidId!: string;
  readonly name!: string;
  readonly siteName!: string;
  readonly clientName!: string;
  readonly kind!: 'skid' | 'shared';
  readonly serviceState!: string;
  readonly standing!: Standing;
  readonly nextTask!: string | null;
  readonly nextOn!: string | null;
  readonly reason!: string;
  readonly lastReadingAt!: Date | null;
  /** IANA time zone of the site */
  readonly timeZone!: string;
}

export class StandingCountView extends View {
  readonly standing!: Standing;
  readonly skids!: number;
}

export class FleetPageView extends View {
  readonly items!: FleetSkidView[];
  readonly next!: string | null;
  readonly total!: number;
  /** Of all skids that the caller may see, whatever the filter */
  readonly counts!: StandingCountView[];
}

/** The head of the skid page. */
export class SkidOverviewView extends View {
  readonly skidId!: string;
  readonly name!: string;
  readonly siteName!: string;
  readonly clientName!: string;
  readonly kind!: 'skid' | 'shared';
  readonly timeZone!: string;
  readonly serviceState!: string;
  readonly water!: string;
  readonly standing!: Standing;
  readonly reason!: string;
  readonly nextTask!: string | null;
  readonly nextOn!: string | null;
  readonly lastReadingAt!: Date | null;
  readonly filtrationHours30Days!: number | null;
  readonly dailyFiltrateM3!: number | null;
}
