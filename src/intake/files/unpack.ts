import { createHash } from 'node:crypto';
import { pipeline, type Readable } from 'node:stream';
import { createGunzip } from 'node:zlib';
import { FileTooLarge, UnreadableFile } from '../intake.errors.js';

/** A file as it arrives; `truncated` when it was longer than the service takes. */
export type ArrivingFile = Readable & { readonly truncated?: boolean };

const MOST_BYTES = 2 * 1024 ** 3;
/** A sender that says nothing for so long has gone. */
const STALL_MS = 60_000;

/** The bytes of a log file, unpacked where they are a gzip, and a hash of them as they came. */
export class UnpackedFile {
  private readonly hash = createHash('sha256');

  constructor(
    private readonly file: ArrivingFile,
    private readonly mostBytes = MOST_BYTES,
  ) {}

  /** Of the bytes that have been read. */
  get sha256(): string {
    return this.hash.copy().digest('hex');
  }

  async *bytes(): AsyncGenerator<Buffer> {
    let unpacked = 0;
    for await (const chunk of this.unpacked()) {
      unpacked += chunk.length;
      if (unpacked > this.mostBytes) throw new FileTooLarge(`The file holds more than ${this.mostBytes} bytes when it is unpacked; split it`);
      yield chunk;
    }
  }

  private async *unpacked(): AsyncGenerator<Buffer> {
    const arriving = this.arriving();
    const first = await arriving.next();
    if (first.done) return;
    const bytes = first.value;
    if (bytes[0] === 0x50 && bytes[1] === 0x4b) throw new UnreadableFile('The file is a zip archive; unpack it, or pack it with gzip');
    const whole = (async function* () {
      yield bytes;
      yield* arriving;
    })();
    if (bytes[0] === 0x1f && bytes[1] === 0x8b) yield* gunzipped(whole);
    else yield* whole;
  }

  /** The limit of an upload ends a file early and without an error, and half of it would be stored. */
  private async *arriving(): AsyncGenerator<Buffer> {
    const awaitMore = () => setTimeout(() => this.file.destroy(new UnreadableFile('The file stopped arriving')), STALL_MS);
    let stalled = awaitMore();
    try {
      // The stream stays whole when a fault ends the reading: what is left of the upload is thrown away, so that the sender can hear the answer.
      for await (const chunk of this.file.iterator({ destroyOnReturn: false }) as AsyncIterable<Buffer>) {
        clearTimeout(stalled); // the time that is spent on a chunk is ours, and not the sender's
        this.hash.update(chunk);
        yield chunk;
        stalled = awaitMore();
      }
    } catch (error) {
      throw error instanceof UnreadableFile ? error : new UnreadableFile(`The upload broke off: ${(error as Error).message}`);
    } finally {
      clearTimeout(stalled);
    }
    if (this.file.truncated === true) throw new FileTooLarge('The file is longer than 2 GB; split it, or pack it with gzip');
  }
}

async function* gunzipped(packed: AsyncIterable<Buffer>): AsyncGenerator<Buffer> {
  const gunzip = createGunzip();
  pipeline(packed, gunzip, () => {}); // an error of the source destroys the stream that is read here with it
  try {
    for await (const chunk of gunzip as AsyncIterable<Buffer>) yield chunk;
  } catch (error) {
    const { code = '' } = error as { code?: string };
    if (code.startsWith('Z_')) throw new UnreadableFile(code === 'Z_BUF_ERROR' ? 'The gzip ends early' : 'The gzip is damaged');
    throw error;
  }
}
