import { inflateSync } from 'node:zlib';

const SIGNATURE = Buffer.from([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a]);
const BYTES_A_PIXEL = 8;
/** A larger picture takes more memory than a report is worth. */
const MOST_PIXELS = 40_000_000;

/**
 * Whether the pixels of a PNG can be unpacked; of any other content nothing is said. The library that draws it unpacks it later, where nobody could catch the fault.
 * Source: PNG specification (W3C, 3rd edition), chunk layout.
 */
export function mayBeDrawn(content: Buffer): boolean {
  if (!content.subarray(0, SIGNATURE.length).equals(SIGNATURE)) return true;
  try {
    const pixels = content.readUInt32BE(16) * content.readUInt32BE(20);
    if (pixels > MOST_PIXELS) return false;
    inflateSync(Buffer.concat(pixelChunks(content)), { maxOutputLength: pixels * BYTES_A_PIXEL + content.readUInt32BE(20) + 1024 });
    return true;
  } catch {
    return false;
  }
}

/** The contents of the chunks of pixels: each chunk is its length, its kind, so many bytes, and a checksum. */
function pixelChunks(content: Buffer): Buffer[] {
  const chunks: Buffer[] = [];
  for (let at = SIGNATURE.length; at + 8 <= content.length; ) {
    const length = content.readUInt32BE(at);
    if (content.toString('latin1', at + 4, at + 8) === 'IDAT') chunks.push(content.subarray(at + 8, at + 8 + length));
    at += length + 12;
  }
  return chunks;
}
