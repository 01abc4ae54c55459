import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import compress from '@fastify/compress';
import cookie from '@fastify/cookie';
import { ValidationPipe } from '@nestjs/common';
import { FastifyAdapter, type NestFastifyApplication } from '@nestjs/platform-fastify';
import { type OpenAPIObject, SwaggerModule } from '@nestjs/swagger';
import type { ValidationError } from 'class-validator';
import { type FieldProblem, InvalidRequest } from './app/errors/errors.js';
import { ProblemFilter } from './app/errors/problem.filter.js';
import { addSafetyHeaders, servePages } from './app/pages/serve-pages.js';
import { takeFilesAsBody } from './attachments/index.js';

const MAX_BODY_BYTES = 4 * 1024 * 1024;
const MAX_LOG_FILE_BYTES = 2 * 1024 ** 3;

export interface SetupOptions {
  /** Folder of the built pages; undefined: the API alone */
  readonly pagesFolder: string | undefined;
  /** The described API, served under /api/docs */
  readonly openapiFile: string | undefined;
}

/** `trustedProxy`: addresses of proxies whose word on the caller's address and protocol is believed. */
export function makeAdapter(trustedProxy = 'loopback'): FastifyAdapter {
  return new FastifyAdapter({
    trustProxy: trustedProxy,
    bodyLimit: MAX_BODY_BYTES,
    multipart: { limits: { fileSize: MAX_LOG_FILE_BYTES, files: 1, fields: 10 } },
  });
}

/** The same for the service and for its tests. */
export async function setUpApp(app: NestFastifyApplication, options: SetupOptions): Promise<void> {
  app.setGlobalPrefix('api');
  app.useGlobalFilters(new ProblemFilter());
  app.useGlobalPipes(
    new ValidationPipe({
      transform: true,
      whitelist: true,
      forbidNonWhitelisted: true,
      exceptionFactory: (errors) => new InvalidRequest('The request has fields that need a change', fieldsOf(errors)),
    }),
  );
  takeFilesAsBody(app.getHttpAdapter().getInstance());
  await app.register(cookie);
  // Answers are made for one reader each: the usual level takes twice the time for a few percent less to send.
  await app.register(compress, { encodings: ['br', 'gzip'], threshold: 1024, zlibOptions: { level: 3 } });
  addSafetyHeaders(app);
  const { openapiFile } = options;
  if (openapiFile !== undefined && existsSync(openapiFile)) {
    SwaggerModule.setup('api/docs', app, () => JSON.parse(readFileSync(openapiFile, 'utf8')) as OpenAPIObject);
  }
  if (options.pagesFolder !== undefined) await servePages(app, join(options.pagesFolder));
}

function fieldsOf(errors: readonly ValidationError[], parent = '#'): FieldProblem[] {
  return errors.flatMap((error) => {
    const pointer = `${parent}/${error.property.replaceAll('~', '~0').replaceAll('/', '~1')}`;
    const own = Object.values(error.constraints ?? {}).map((message) => ({ pointer, message: `${message}${seen(error.value)}` }));
    return [...own, ...fieldsOf(error.children ?? [], pointer)];
  });
}

/** The value as the caller sent it, so that the fault can be found. */
function seen(value: unknown): string {
  if (value === undefined) return '; nothing was sent';
  const text = JSON.stringify(value) ?? typeof value;
  return `; seen: ${text.length > 80 ? `${text.slice(0, 80)}…` : text}`;
}
