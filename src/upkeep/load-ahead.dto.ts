import { IsOptional, IsUUID } from 'class-validator';
import { IsDay, View } from '../app/index.js';

export class LoadQuery {
  @IsOptional()
  @IsUUID()
  skidId?: string;

  @IsOptional()
  @IsUUID()
  clientId?: string;
}

export class WeekQuery extends LoadQuery {
  /** Any day of the week */
  @IsDay()
  week!: string;
}

export class KindOfWorkView extends View {
  readonly kind!: string;
  readonly hours!: number;
  readonly tasks!: number;
}

export class WeekOfWorkView extends View {
  /** A Monday */
  readonly week!: string;
  /** Of people: time on the clock times crew */
  readonly hours!: number;
  readonly tasks!: number;
  readonly kinds!: KindOfWorkView[];
}

export class LoadAheadView extends View {
  /** 52, from this week on */
  readonly weeks!: WeekOfWorkView[];
  readonly hours!: number;
  readonly tasks!: number;
  /** What the figures mean and do not hold */
  readonly note!: string;
}

export class TaskOfWeekView extends View {
  readonly skidId!: string;
  readonly skidName!: string;
  readonly siteName!: string;
  readonly clientName!: string;
  readonly kind!: string;
  readonly task!: string;
  readonly times!: number;
  readonly hours!: number;
}
