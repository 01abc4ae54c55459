import { IsIn, IsInt, IsNumber, IsOptional, IsUUID, Max, Min } from 'class-validator';
import { IsDay, IsMoment, IsName, IsText } from '../app/index.js';
import { SIGNALS, type SignalCode } from '../shared/signals.js';
import { UNITS, type UnitCode } from '../shared/units.js';
import { IsListOf } from './is-list-of.js';

export class IntegrityReportDto {
  @IsOptional()
  @IsMoment()
  at?: string | null;

  @IsNumber()
  startKpa!: number;

  @IsNumber()
  endKpa!: number;

  @IsNumber()
  minutes!: number;

  @IsNumber()
  settledMinutes!: number;

  @IsNumber()
  temperatureC!: number;

  @IsText(1000)
  note: string = '';
}

export class FibreReportDto {
  @IsUUID()
  positionId!: string;

  @IsOptional()
  @IsMoment()
  at?: string | null;

  @IsInt()
  @Min(1)
  @Max(1_000_000)
  fibres!: number;

  @IsText(1000)
  note: string = '';
}

export class CalibrationPointDto {
  @IsNumber()
  reference!: number;

  @IsNumber()
  asFound!: number;

  @IsOptional()
  @IsNumber()
  asLeft?: number | null;
}

export class CalibrationReportDto {
  @IsUUID()
  positionId!: string;

  @IsOptional()
  @IsMoment()
  at?: string | null;

  /** Missing: what the position says that it measures */
  @IsOptional()
  @IsIn(Object.keys(SIGNALS))
  signal?: SignalCode | null;

  @IsIn(Object.keys(UNITS))
  unit!: UnitCode;

  @IsNumber()
  tolerance!: number;

  @IsName(200)
  referenceInstrument!: string;

  @IsText(100)
  certificateNo: string = '';

  @IsListOf(CalibrationPointDto, 20)
  points!: CalibrationPointDto[];

  @IsOptional()
  @IsDay()
  nextOn?: string | null;

  @IsText(1000)
  note: string = '';
}
