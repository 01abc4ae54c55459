import { IsIn } from 'class-validator';
import { MayBeLeftOut, View } from '../../app/index.js';

export class ImportQuery {
  /** Reads and checks all, and writes nothing */
  @MayBeLeftOut()
  @IsIn(['true', 'false'])
  dryRun?: 'true' | 'false';

  /** Takes the rows that are right, and leaves out the others; else none is taken while one is wrong */
  @MayBeLeftOut()
  @IsIn(['true', 'false'])
  goodOnly?: 'true' | 'false';
}

export class RowProblemView extends View {
  /** Of the file, from 1 */
  readonly line!: number;
  /** Null: of the row as a whole */
  readonly column!: string | null;
  /** As it stood there */
  readonly value!: string | null;
  readonly message!: string;
}

export class ImportReportView extends View {
  readonly dryRun!: boolean;
  readonly rows!: number;
  /** New records; in a dry run, what they would be */
  readonly made!: number;
  readonly changed!: number;
  /** Rows that say what is on record already */
  readonly same!: number;
  /** Rows that are wrong */
  readonly wrong!: number;
  /** The first thousand problems, by line */
  readonly problems!: RowProblemView[];
}
