import { IsIn, IsUUID } from 'class-validator';
import { View } from '../../app/index.js';
import { FORECAST_KINDS, type ForecastKind } from './record.dto.js';

export class PastParams {
  @IsUUID()
  skidId!: string;
}

export class PastQuery {
  /** Which limit was forecast */
  @IsIn(FORECAST_KINDS)
  limitKind!: ForecastKind;
}

/** What was forecast on a day, and what came. */
export class PastForecastView extends View {
  /** Local date of the latest reading that it knew */
  readonly originOn!: string;
  /** What the limit is of: the membranes, or the position of the part */
  readonly subject!: string;
  /** null: beyond two years */
  readonly p10On!: string | null;
  readonly p50On!: string | null;
  readonly p90On!: string | null;
  /** scored: the limit was met; early change: the part was changed or cleaned before it; open: nothing yet */
  readonly came!: 'scored' | 'early change' | 'open';
  /** Day of the limit or of the change */
  readonly cameOn!: string | null;
  readonly inside!: boolean | null;
  /** Made later, from what had been measured until then */
  readonly afterwards!: boolean;
}
