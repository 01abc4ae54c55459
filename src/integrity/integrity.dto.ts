import { IsInt, IsNumber, IsOptional, IsPositive, IsUUID, Max, Min } from 'class-validator';
import { IsMoment, IsText, PageQuery, View } from '../app/index.js';

export class IntegritySetupDto {
  @IsNumber()
  @IsPositive()
  @Max(100_000)
  designFlowM3h!: number;

  /** Air under pressure in the test, pipework included */
  @IsNumber()
  @IsPositive()
  @Max(1_000_000)
  airVolumeL!: number;

  /** Highest transmembrane pressure in operation, not the test pressure */
  @IsNumber()
  @IsPositive()
  @Max(1000)
  highestTmpKpa!: number;

  /** Static head on the wet side */
  @IsNumber()
  @Min(0)
  @Max(300)
  backPressureKpa: number = 0;

  @IsNumber()
  @Min(50)
  @Max(110)
  atmosphericKpa: number = 101.325;

  /** Air-liquid conversion ratio as agreed with the regulator; missing: computed for turbulent flow */
  @IsOptional()
  @IsNumber()
  @IsPositive()
  @Max(1000)
  airLiquidRatio?: number | null;

  /** Net expansion factor of the turbulent ratio */
  @IsNumber()
  @Min(0.3)
  @Max(1)
  netExpansion: number = 0.7;

  /** Suspended solids at the membrane over those in the feed; 1 for dead-end filtration */
  @IsNumber()
  @Min(1)
  @Max(50)
  concentration: number = 1;

  @IsNumber()
  @Min(0.1)
  @Max(1)
  poreShape: number = 1;

  @IsNumber()
  @Min(0)
  @Max(89)
  contactAngleDeg: number = 0;

  /** Log removal credit to be proved */
  @IsNumber()
  @Min(0.5)
  @Max(7)
  creditLrv!: number;

  /** Decay of a sound unit when new, by diffusion; shown, and not taken off */
  @IsOptional()
  @IsNumber()
  @Min(0)
  @Max(100)
  baselineKpaMin?: number | null;

  /** The module maker’s highest test pressure */
  @IsOptional()
  @IsNumber()
  @IsPositive()
  @Max(1000)
  highestTestKpa?: number | null;

  @IsNumber()
  @Min(0)
  @Max(120)
  leastSettledMin: number = 5;

  @IsOptional()
  @IsInt()
  @Min(1)
  @Max(1_000_000)
  fibresPerModule?: number | null;
}

export class IntegritySetupView extends View {
  readonly designFlowM3h!: number;
  readonly airVolumeL!: number;
  readonly highestTmpKpa!: number;
  readonly backPressureKpa!: number;
  readonly atmosphericKpa!: number;
  readonly airLiquidRatio!: number | null;
  readonly netExpansion!: number;
  readonly concentration!: number;
  readonly poreShape!: number;
  readonly contactAngleDeg!: number;
  readonly creditLrv!: number;
  readonly baselineKpaMin!: number | null;
  readonly highestTestKpa!: number | null;
  readonly leastSettledMin!: number;
  readonly fibresPerModule!: number | null;
  readonly version!: number;
}

export class IntegrityTestDto {
  /** Missing: now */
  @IsOptional()
  @IsMoment()
  at?: string | null;

  @IsNumber()
  @IsPositive()
  @Max(1000)
  startKpa!: number;

  @IsNumber()
  @Min(0)
  @Max(1000)
  endKpa!: number;

  @IsNumber()
  @Min(0.5)
  @Max(240)
  minutes!: number;

  /** Before the time was taken */
  @IsNumber()
  @Min(0)
  @Max(240)
  settledMinutes!: number;

  @IsNumber()
  @Min(0)
  @Max(60)
  temperatureC!: number;

  @IsText(1000)
  note: string = '';
}

export class IntegrityTestView extends View {
  readonly id!: string;
  readonly at!: Date;
  readonly by!: string;
  readonly startKpa!: number;
  readonly endKpa!: number;
  readonly minutes!: number;
  readonly settledMinutes!: number;
  readonly temperatureC!: number;
  readonly decayKpaMin!: number;
  readonly leastTestKpa!: number | null;
  /** Log removal value that the smallest reliable step of the gauge would prove */
  readonly sensitivityLrv!: number | null;
  readonly lrv!: number | null;
  readonly controlLimitKpaMin!: number | null;
  /** passed, failed, not counted */
  readonly outcome!: string;
  readonly reasons!: string[];
  /** After a failed test; the local regulator’s rule goes before it */
  readonly nextSteps!: string[];
  readonly note!: string;
}

export class IntegrityTestsPageView extends View {
  readonly items!: IntegrityTestView[];
  readonly next!: string | null;
}

export class IntegrityQuery extends PageQuery {}

export class FibreRepairDto {
  /** The module */
  @IsUUID()
  positionId!: string;

  @IsOptional()
  @IsMoment()
  at?: string | null;

  /** How many were closed */
  @IsInt()
  @Min(1)
  @Max(1_000_000)
  fibres!: number;

  @IsText(1000)
  note: string = '';
}

export class FibreRepairView extends View {
  readonly id!: string;
  readonly at!: Date;
  readonly by!: string;
  readonly positionId!: string;
  readonly positionName!: string;
  readonly fibres!: number;
  readonly areaLostM2!: number | null;
  readonly note!: string;
}

export class ModuleFibresView extends View {
  readonly positionId!: string;
  readonly positionName!: string;
  /** Closed in the module that is fitted now */
  readonly fibres!: number;
  readonly share!: number | null;
  /** look at the module, replace the module */
  readonly mark!: string | null;
}

export class IntegrityRecordView extends View {
  readonly lastTest!: IntegrityTestView | null;
  /** The latest that counted: passed or failed */
  readonly lastCounted!: IntegrityTestView | null;
  readonly modules!: ModuleFibresView[];
  readonly repairs!: FibreRepairView[];
  /** Broken fibres for each million and year over the last twelve months; 1 to 10 is usual */
  readonly breaksPerMillionYear!: number | null;
}
