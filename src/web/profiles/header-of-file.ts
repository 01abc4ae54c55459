import { cellsOf } from '../readings/paste-columns.js';
import type { Definition } from './definition.js';

const HEAD_BYTES = 65_536;

/** The names in the header of a log, read from its first bytes on this device: nothing is sent. */
export async function headerOfFile(file: Blob, { encoding, delimiter, skipLines }: Definition): Promise<string[]> {
  const bytes = await file.slice(0, HEAD_BYTES).arrayBuffer();
  const text = new TextDecoder(encoding).decode(bytes).replace(/^\uFEFF/, '');
  const line = text.split(/\r?\n/)[skipLines] ?? '';
  const cells = delimiter === 'auto' ? (cellsOf(line, 1)[0] ?? []) : line.split(delimiter === 'tab' ? '\t' : delimiter);
  return cells.map((cell) => cell.trim().replace(/^"(.*)"$/, '$1')).filter((cell) => cell !== '');
}
