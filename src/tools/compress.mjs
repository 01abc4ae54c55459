import { readFileSync, writeFileSync } from 'node:fs';
import { brotliCompressSync, gzipSync } from 'node:zlib';
import { globSync } from 'tinyglobby';

const WORTH_IT_BYTES = 1024;

/** Writes file.br and file.gz beside every text file of the folder, so that serving costs nothing. */
export function compressFolder(folder) {
  for (const file of globSync(['**/*.{html,js,css,svg,json,webmanifest}'], { cwd: folder, absolute: true })) {
    const content = readFileSync(file);
    if (content.length < WORTH_IT_BYTES) continue;
    writeFileSync(`${file}.br`, brotliCompressSync(content));
    writeFileSync(`${file}.gz`, gzipSync(content, { level: 9 }));
  }
}
