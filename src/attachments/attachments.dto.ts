import { IsIn, IsUUID } from 'class-validator';
import { IsName, IsText, MayBeLeftOut, View } from '../app/index.js';

/** Records that files hang on. */
export const RECORD_KINDS = ['job', 'report', 'calibration', 'integrity test', 'item'] as const;
export type RecordKind = (typeof RECORD_KINDS)[number];

export class AttachmentsQuery {
  /** The kind of record that the file belongs to */
  @IsIn(RECORD_KINDS)
  ofKind!: RecordKind;

  /** Its id */
  @IsUUID()
  ofId!: string;
}

export class AttachmentQuery extends AttachmentsQuery {
  /** Where in the record: a step of a sheet, say */
  @MayBeLeftOut()
  @IsText(120)
  place?: string;

  /** Of the file, where the body is the file itself */
  @MayBeLeftOut()
  @IsName(200)
  name?: string;
}

export class AttachmentView extends View {
  readonly id!: string;
  readonly ofKind!: RecordKind;
  readonly ofId!: string;
  readonly place!: string;
  readonly name!: string;
  /** As its first bytes say */
  readonly mediaType!: string;
  readonly bytes!: number;
  readonly by!: string;
  readonly at!: Date;
}

export class AttachmentsView extends View {
  readonly items!: AttachmentView[];
}
