import { createHash } from 'node:crypto';
import { Readable } from 'node:stream';
import { gzipSync } from 'node:zlib';
import { describe, expect, test } from '@jest/globals';
import { textOf } from './text.js';
import { type ArrivingFile, UnpackedFile } from './unpack.js';

const arriving = (bytes: Buffer, piece = 7): ArrivingFile =>
  Readable.from(Array.from({ length: Math.ceil(bytes.length / piece) }, (_, i) => bytes.subarray(i * piece, (i + 1) * piece)));

async function read(bytes: Buffer, { most, piece }: { most?: number; piece?: number } = {}): Promise<{ text: string; sha256: string }> {
  const file = new UnpackedFile(arriving(bytes, piece), most);
  let text = '';
  for await (const part of textOf(file.bytes(), 'utf-8')) text += part;
  return { text, sha256: file.sha256 };
}

describe('a file that arrives', () => {
  const text = 'time,flow\n2026-05-01T00:00,Überlauf 漢字\n'.repeat(50);

  test('is text as it is, whatever the pieces', async () => {
    for (const piece of [1, 3, 1000]) expect((await read(Buffer.from(text), { piece })).text).toBe(text);
  });

  test('is unpacked when its bytes say that it is a gzip, and hashed as it came', async () => {
    const packed = gzipSync(text);
    expect(await read(packed)).toEqual({ text, sha256: createHash('sha256').update(packed).digest('hex') });
    expect((await read(Buffer.concat([gzipSync('a\n'), gzipSync('b\n')]))).text).toBe('a\nb\n');
  });

  test('loses its byte-order mark, which also says its encoding', async () => {
    expect((await read(Buffer.from(`\uFEFF${text}`))).text).toBe(text);
    expect((await read(Buffer.from(`\uFEFF${text}`, 'utf16le'))).text).toBe(text);
  });

  test('that unpacks to more than the limit is stopped there', async () => {
    await expect(read(gzipSync(Buffer.alloc(5_000_000)), { most: 1_000_000 })).rejects.toMatchObject({ status: 413 });
  });

  test.each<[string, Buffer]>([
    ['a gzip that ends early', gzipSync(text).subarray(0, 40)],
    ['a damaged gzip', Buffer.concat([gzipSync(text).subarray(0, 12), Buffer.alloc(40, 255)])],
    ['a zip archive', Buffer.from('PK\x03\x04 and so on')],
  ])('that is %s is refused', async (_, bytes) => {
    await expect(read(bytes)).rejects.toMatchObject({ status: 422, code: 'intake/unreadable-file' });
  });

  test('that was cut at the size limit is refused whole', async () => {
    const file = Object.assign(arriving(Buffer.from(text)), { truncated: true });
    const reading = async () => {
      for await (const _ of new UnpackedFile(file).bytes());
    };
    await expect(reading()).rejects.toMatchObject({ status: 413 });
  });

  test('that is empty has no bytes', async () => {
    expect((await read(Buffer.alloc(0))).text).toBe('');
  });
});
