import { Transform } from 'class-transformer';
import { ArrayMaxSize, ArrayMinSize, IsArray, IsBoolean, IsIn, IsObject, IsOptional, IsUUID } from 'class-validator';
import { FILE_KINDS, type FileKind } from './core/log-profile.js';

/** Words of a query that stand for a truth value; anything else is left for the check to refuse. */
const truth = ({ value }: { value: unknown }): unknown => (value === 'true' || value === '' ? true : value === 'false' ? false : value);

export class FileQuery {
  @IsIn(FILE_KINDS)
  kind!: FileKind;

  /** How the file is to be read; unset: by the documented columns */
  @IsOptional()
  @IsUUID()
  profileId?: string;

  /** Values that differ take the place of the earlier ones, which are kept with their load */
  @Transform(truth)
  @IsBoolean()
  replaceDiffering: boolean = false;
}

export class GatewayBatchDto {
  @IsUUID()
  skidId!: string;

  @IsIn(FILE_KINDS)
  kind!: FileKind;

  @IsOptional()
  @IsUUID()
  profileId?: string;

  @IsBoolean()
  replaceDiffering: boolean = false;

  /** One object a row, by the names of the columns as in a file of this kind */
  @IsArray()
  @ArrayMinSize(1)
  @ArrayMaxSize(20_000)
  @IsObject({ each: true })
  rows!: Record<string, unknown>[];
}
