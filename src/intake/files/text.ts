import { TextDecoder } from 'node:util';
import type { LogProfileDefinition } from '../core/log-profile.js';

/** The text of a file, piece by piece. A byte-order mark says the encoding and is left out; without one the profile says it. */
export async function* textOf(bytes: AsyncIterable<Buffer>, encoding: LogProfileDefinition['encoding']): AsyncGenerator<string> {
  let decoder: TextDecoder | undefined;
  for await (const chunk of bytes) {
    decoder ??= new TextDecoder(markedEncoding(chunk) ?? encoding);
    yield decoder.decode(chunk, { stream: true });
  }
  if (decoder !== undefined) yield decoder.decode();
}

function markedEncoding(first: Buffer): string | undefined {
  if (first[0] === 0xef && first[1] === 0xbb && first[2] === 0xbf) return 'utf-8';
  if (first[0] === 0xff && first[1] === 0xfe) return 'utf-16le';
  return first[0] === 0xfe && first[1] === 0xff ? 'utf-16be' : undefined;
}
