import { IsIn, IsOptional } from 'class-validator';
import { IsDay, PageQuery } from '../app/index.js';

export class RegistryQuery extends PageQuery {
  /** Only those that have ended, instead of only those that have not */
  @IsOptional()
  @IsIn(['true', 'false'])
  ended?: 'true' | 'false';
}

export class EndDto {
  /** The last day that it counts, not in the future */
  @IsDay()
  on!: string;
}
