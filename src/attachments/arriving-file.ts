import { Readable } from 'node:stream';
import type {} from '@fastify/multipart';
import type { FastifyInstance, FastifyRequest } from 'fastify';
import { InvalidRequest } from '../app/index.js';

const ROUTE = '/api/attachments/:id';
const NO_FILE = [{ pointer: '#/file', message: 'There is no file' }];

export interface ArrivingFile {
  /** As the form calls it */
  readonly name: string | undefined;
  readonly content: Readable;
}

/** Lets the route of attachments take the file itself as the body, whatever type its sender says; nothing of it is read before the route does. */
export function takeFilesAsBody(fastify: FastifyInstance): void {
  fastify.addContentTypeParser('*', (request, payload, done) => {
    if (request.routeOptions.url === ROUTE) return done(null, payload);
    const type = request.headers['content-type'];
    done(Object.assign(new Error(`This address takes no ${type === undefined ? 'body without a Content-Type' : type}; send JSON`), { statusCode: 415 }));
  });
}

/** The one file of the request: in a form of multipart/form-data, or the body itself. */
export async function arrivingFile(request: FastifyRequest): Promise<ArrivingFile> {
  if (request.body instanceof Readable) return { name: undefined, content: request.body };
  if (!request.isMultipart()) throw new InvalidRequest('Send the file in multipart/form-data, or as the body with its own media type', NO_FILE);
  const part = await request.file().catch((error: Error) => {
    throw new InvalidRequest(`The form cannot be read: ${error.message}`);
  });
  if (part === undefined) throw new InvalidRequest('The form has no file', NO_FILE);
  return { name: part.filename, content: part.file };
}

/** Reads to the end, so that the sender hears the answer, but keeps no more than is allowed. */
export async function readUpTo(content: Readable, mostBytes: number): Promise<{ kind: 'read'; bytes: Buffer } | { kind: 'too large'; seenBytes: number }> {
  let seenBytes = 0;
  let kept: Buffer[] = [];
  for await (const chunk of content as AsyncIterable<Buffer>) {
    seenBytes += chunk.length;
    if (seenBytes > mostBytes) kept = [];
    else kept.push(chunk);
  }
  return seenBytes > mostBytes ? { kind: 'too large', seenBytes } : { kind: 'read', bytes: Buffer.concat(kept) };
}
