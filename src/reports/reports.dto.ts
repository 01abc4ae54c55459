import { IsIn, IsUUID } from 'class-validator';
import { IsDay, MayBeLeftOut } from '../app/index.js';
import { UNIT_OPTIONS } from '../shared/unit-choice.js';

/** In which units the report is written; those that the pages begin with where nothing is said. */
export class ReportUnitsQuery {
  /** UCUM code */
  @MayBeLeftOut()
  @IsIn(UNIT_OPTIONS.pressure)
  pressure?: (typeof UNIT_OPTIONS.pressure)[number];

  /** UCUM code */
  @MayBeLeftOut()
  @IsIn(UNIT_OPTIONS.flow)
  flow?: (typeof UNIT_OPTIONS.flow)[number];

  /** UCUM code */
  @MayBeLeftOut()
  @IsIn(UNIT_OPTIONS.temperature)
  temperature?: (typeof UNIT_OPTIONS.temperature)[number];

  /** UCUM code */
  @MayBeLeftOut()
  @IsIn(UNIT_OPTIONS.permeability)
  permeability?: (typeof UNIT_OPTIONS.permeability)[number];
}

export class ReportPeriodQuery extends ReportUnitsQuery {
  /** First day at the site; 90 days up to the last one where it is left out */
  @MayBeLeftOut()
  @IsDay()
  from?: string;

  /** Last day at the site; today where it is left out */
  @MayBeLeftOut()
  @IsDay()
  to?: string;
}

export class ReportParams {
  @IsUUID()
  id!: string;
}
