import { ApiPropertyOptional } from '@nestjs/swagger';
import { Type } from 'class-transformer';
import { IsInt, Max, Min } from 'class-validator';
import { View } from '../app/index.js';
import type { SheetView } from '../jobs/index.js';
import type { VisitState } from '../shared/work.js';
import { KitView } from './kit.dto.js';
import { VisitPersonView } from './visit-views.dto.js';

export class SheetsQuery {
  /** Today and so many days after it, 0 to 31 */
  @Type(() => Number)
  @IsInt()
  @Min(0)
  @Max(31)
  @ApiPropertyOptional({ type: 'integer' })
  days: number = 7;
}

/** A visit with the sheets of what is still to be done in it. */
export class VisitSheetsView extends View {
  readonly id!: string;
  readonly no!: number;
  /** The day at the site */
  readonly onDay!: string;
  readonly startTime!: string;
  readonly minutes!: number;
  readonly state!: VisitState;
  readonly siteId!: string;
  readonly siteName!: string;
  readonly clientName!: string;
  readonly timeZone!: string;
  readonly accessHours!: string;
  readonly note!: string;
  readonly people!: VisitPersonView[];
  readonly kit!: KitView;
  readonly jobs!: SheetView[];
}

export class PlaceStockView extends View {
  readonly itemId!: string;
  readonly code!: string;
  readonly name!: string;
  readonly unit!: string;
  /** A decimal number */
  readonly onHand!: string;
}

export class PlaceSheetView extends View {
  readonly id!: string;
  readonly name!: string;
  readonly kind!: 'van' | 'store';
  readonly stock!: PlaceStockView[];
}

/** What a phone fetches ahead, to work without signal. */
export class SheetsView extends View {
  readonly madeAt!: Date;
  readonly visits!: VisitSheetsView[];
  /** The caller’s van and the stores; for a manager, the vans of all who go */
  readonly places!: PlaceSheetView[];
}
