import type { Test } from 'supertest';
import type { Api } from './api.js';

/** Asks for a file and takes its bytes as they are. */
export const fetchPdf = (by: Api, path: string): Test =>
  by
    .get(path)
    .buffer(true)
    .parse((answer, done) => {
      const chunks: Buffer[] = [];
      answer.on('data', (chunk: Buffer) => chunks.push(chunk));
      answer.on('end', () => done(null, Buffer.concat(chunks)));
    });
