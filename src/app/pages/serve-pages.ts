import { existsSync } from 'node:fs';
import { join } from 'node:path';
import fastifyStatic from '@fastify/static';
import type { NestFastifyApplication } from '@nestjs/platform-fastify';

const CONTENT_SECURITY_POLICY = [
  "default-src 'none'",
  "script-src 'self'",
  "style-src 'self'",
  "img-src 'self' blob:",
  "font-src 'self'",
  "connect-src 'self'",
  "worker-src 'self'",
  "manifest-src 'self'",
  "form-action 'self'",
  "base-uri 'none'",
  "frame-ancestors 'none'",
].join('; ');

/** Headers that every answer carries. */
export function addSafetyHeaders(app: NestFastifyApplication): void {
  app
    .getHttpAdapter()
    .getInstance()
    .addHook('onSend', async (request, reply) => {
      reply.header('x-content-type-options', 'nosniff').header('referrer-policy', 'same-origin');
      const hasOwn = (header: string) => reply.hasHeader(header); // a route that is stricter, or that may be kept
      // The documentation page of the API writes its own inline styles.
      if (!request.url.startsWith('/api/docs') && !hasOwn('content-security-policy')) reply.header('content-security-policy', CONTENT_SECURITY_POLICY);
      if (request.url.startsWith('/api/') && !hasOwn('cache-control')) reply.header('cache-control', 'no-store');
    });
}

/** Files of the pages by name; every other address outside /api that asks for a page is the page, which reads the address. */
export async function servePages(app: NestFastifyApplication, folder: string): Promise<void> {
  if (!existsSync(join(folder, 'index.html'))) return;
  const fastify = app.getHttpAdapter().getInstance();
  await app.register(fastifyStatic, {
    root: folder,
    wildcard: false,
    preCompressed: true,
    cacheControl: false,
    setHeaders: (response, path) => {
      response.setHeader('cache-control', path.includes('/assets/') ? 'public, max-age=31536000, immutable' : 'no-cache');
    },
  });
  fastify.get('/*', async (request, reply) => {
    const path = request.url.split('?')[0] ?? '';
    if (path === '/api' || path.startsWith('/api/') || /\.\w+$/.test(path)) return reply.callNotFound();
    return reply.sendFile('index.html');
  });
}
