import { IsInt, IsNumber, IsOptional, IsPositive, IsUUID, Max, Min } from 'class-validator';
import { IsMoment, IsText, View } from '../app/index.js';

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

  /** Air-liquid conversion ratio as agreed with the regulator; missing: computed, the smaller of the turbulent and the laminar one */
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

  /** Smallest step that the gauge of the test shows: no smaller decay is proved */
  @IsNumber()
  @Min(0.0001)
  @Max(10)
  gaugeStepKpa: number = 0.1;

  @IsOptional()
  @IsInt()
  @Min(1)
  @Max(1_000_000)
  fibresPerModule?: number | null;

  /** Active area of one module; missing: its share of the active area of the skid */
  @IsOptional()
  @IsNumber()
  @IsPositive()
  @Max(10_000)
  moduleAreaM2?: number | null;

  /** Contact with free chlorine that the module maker states for the life of a module, ppm h; missing: not known */
  @IsOptional()
  @IsNumber()
  @IsPositive()
  @Max(100_000_000)
  oxidantLimitPpmH?: number | null;
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
  readonly gaugeStepKpa!: number;
  readonly fibresPerModule!: number | null;
  readonly moduleAreaM2!: number | null;
  readonly oxidantLimitPpmH!: number | null;
  readonly version!: number;
}

export class IntegrityTestDto {
  /** Missing: now */
  @IsOptional()
  @IsMoment()
  at?: string | null;

  @IsNumber()
  startKpa!: number;

  @IsNumber()
  endKpa!: number;

  @IsNumber()
  minutes!: number;

  /** Before the time was taken */
  @IsNumber()
  settledMinutes!: number;

  @IsNumber()
  temperatureC!: number;

  @IsText(1000)
  note: string = '';
}

/** What a test was judged with, as it was on its day. */
export class JudgedWithView extends View {
  readonly designFlowM3h!: number;
  readonly airVolumeL!: number;
  readonly highestTmpKpa!: number;
  readonly backPressureKpa!: number;
  readonly atmosphericKpa!: number;
  /** The ratio that was reckoned with: agreed, or computed from the rest */
  readonly airLiquidRatio!: number;
  readonly netExpansion!: number;
  readonly concentration!: number;
  readonly poreShape!: number;
  readonly contactAngleDeg!: number;
  readonly creditLrv!: number;
  readonly highestTestKpa!: number | null;
  readonly leastSettledMin!: number;
  readonly gaugeStepKpa!: number;
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
  /** Why it failed or does not count, and what else is wrong with it */
  readonly reasons!: string[];
  /** After a failed test; the local regulator’s rule goes before it */
  readonly nextSteps!: string[];
  /** null: the skid had no setup */
  readonly judgedWith!: JudgedWithView | null;
  readonly note!: string;
}

export class IntegrityTestsPageView extends View {
  readonly items!: IntegrityTestView[];
  readonly next!: string | null;
}

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

export class FibreRepairsPageView extends View {
  readonly items!: FibreRepairView[];
  readonly next!: string | null;
}

export class ModuleFibresView extends View {
  readonly positionId!: string;
  readonly positionName!: string;
  /** Closed in the module that is fitted now */
  readonly fibres!: number;
  readonly areaLostM2!: number;
  readonly share!: number | null;
  /** look at the module, replace the module */
  readonly mark!: string | null;
}

/** One test as it is drawn. */
export class IntegrityPointView extends View {
  readonly at!: Date;
  readonly decayKpaMin!: number;
  readonly lrv!: number | null;
  readonly controlLimitKpaMin!: number | null;
  readonly outcome!: string;
}

export class IntegrityRecordView extends View {
  readonly lastTest!: IntegrityTestView | null;
  /** The latest that counted: passed or failed */
  readonly lastCounted!: IntegrityTestView | null;
  /** Decay and log removal value of the latest tests, in order of time */
  readonly trend!: IntegrityPointView[];
  readonly modules!: ModuleFibresView[];
  readonly repairs!: FibreRepairView[];
  /** Broken fibres for each million and year over the last twelve months; 1 to 10 is usual */
  readonly breaksPerMillionYear!: number | null;
  /** Decay of the sound unit when new, as entered, else what diffusion is expected to make; null: neither is known */
  readonly baselineKpaMin!: number | null;
  /** What a reader of the record must know, in sentences */
  readonly remarks!: string[];
}
