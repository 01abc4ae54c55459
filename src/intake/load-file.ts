import { Injectable } from '@nestjs/common';
import { type Caller, Clock, type KeyedRequest } from '../app/index.js';
import type { FileKind, LogProfileDefinition } from './core/log-profile.js';
import { PLAIN_PROFILE } from './core/log-profile.js';
import { timeReader } from './core/read-time.js';
import { LogTable } from './files/log-table.js';
import { textOf } from './files/text.js';
import { type ArrivingFile, UnpackedFile } from './files/unpack.js';
import { TooManyLoads, UnreadableFile } from './intake.errors.js';
import { Loading, type LoadReport } from './loading.js';
import type { SkidPlace } from './repositories/skids.repository.js';
import { RowsIntoStore } from './rows-into-store.js';

export interface FileRequest {
  readonly skid: SkidPlace;
  readonly caller: Caller;
  readonly kind: FileKind;
  /** Null: the documented columns */
  readonly definition: LogProfileDefinition | null;
  readonly file: ArrivingFile;
  readonly name: string;
  readonly dryRun: boolean;
  readonly replaceDiffering: boolean;
  readonly idempotency?: KeyedRequest;
}

/** Each load keeps a session of the pool and asks for a second one now and then: with too many at once each would wait for the others. */
const MOST_AT_ONCE = 4;

/** Reads a log file while it arrives and stores its rows, each once; a dry run does all of it and undoes it. */
@Injectable()
export class LoadFile {
  private running = 0;

  constructor(
    private readonly loading: Loading,
    private readonly rows: RowsIntoStore,
    private readonly clock: Clock,
  ) {}

  async load(request: FileRequest): Promise<LoadReport> {
    if (this.running >= MOST_AT_ONCE) throw new TooManyLoads(`${MOST_AT_ONCE} files are being loaded; send this one again when one of them has ended`);
    this.running += 1;
    try {
      return await this.carryOut(request);
    } finally {
      this.running -= 1;
    }
  }

  private async carryOut(request: FileRequest): Promise<LoadReport> {
    const { skid, caller, kind, file, name, dryRun, replaceDiffering, idempotency } = request;
    const definition = request.definition ?? plainProfile(kind);
    const readTime = timeReader(definition.timeFormat, definition.timeZone === 'site' ? skid.timeZone : definition.timeZone, this.clock.now().getTime());
    if (readTime === undefined) throw new UnreadableFile(`"${definition.timeFormat}" is no format of a time: mend the profile`);
    const frame = { skid, caller, kind, name, dryRun, replaceDiffering, ...(idempotency === undefined ? {} : { idempotency }) };
    return this.loading.run(frame, async (load) => {
      const into = await this.rows.open(kind, { skid, caller, definition, isPlain: request.definition === null, readTime, dryRun, load });
      const unpacked = new UnpackedFile(file);
      try {
        const table = new LogTable({ definition, readTime, columns: into.columns, problems: load.problems, begin: into.begin });
        for await (const text of textOf(unpacked.bytes(), definition.encoding)) {
          table.add(text);
          await into.drain();
        }
        table.end();
        await into.end();
        return { rows: table.rows, sha256: unpacked.sha256, preview: into.preview };
      } catch (error) {
        await into.abort();
        throw error;
      }
    });
  }
}

function plainProfile(kind: FileKind): LogProfileDefinition {
  return kind === 'cycles' ? { ...PLAIN_PROFILE, timeColumn: 'started_at' } : PLAIN_PROFILE;
}
