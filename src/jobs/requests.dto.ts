import { IsIn, IsOptional } from 'class-validator';
import { IsName, View } from '../app/index.js';
import { SEVERITIES, type Severity } from '../shared/work.js';
import { AskDto } from './breakdowns.dto.js';

export class RequestDto extends AskDto {
  /** Given: something is broken, and the request is a breakdown */
  @IsOptional()
  @IsIn(SEVERITIES)
  severity?: Severity | null;
}

export class RequestNoteDto {
  @IsName(2000)
  note!: string;
}

export class RequestNoteView extends View {
  readonly at!: Date;
  readonly by!: string;
  readonly note!: string;
}
