import { RequestMethod } from '@nestjs/common';
import { ModulesContainer } from '@nestjs/core';
import type { NestFastifyApplication } from '@nestjs/platform-fastify';
import { ALLOWED, type Allowed } from '../../src/app/identity/allow.js';

export interface KnownRoute {
  readonly method: 'GET' | 'POST' | 'PUT' | 'PATCH' | 'DELETE';
  /** With its parameters, as in /api/skids/:id */
  readonly path: string;
  readonly allowed: Allowed | undefined;
}

/** Every route that the service's controllers answer, as their decorators say. */
export function routesOf(app: NestFastifyApplication): KnownRoute[] {
  const controllers = [...app.get(ModulesContainer).values()].flatMap((module) => [...module.controllers.values()].map(({ metatype }) => metatype));
  return controllers.flatMap((controller) => {
    if (typeof controller !== 'function') return [];
    const prefix: string = Reflect.getMetadata('path', controller) ?? '';
    return Object.getOwnPropertyNames(controller.prototype).flatMap((name) => {
      const handler = controller.prototype[name];
      const method: RequestMethod | undefined = typeof handler === 'function' ? Reflect.getMetadata('method', handler) : undefined;
      if (method === undefined) return [];
      const path = ['/api', prefix, Reflect.getMetadata('path', handler)].filter((part) => part !== '' && part !== '/').join('/');
      return [
        {
          method: RequestMethod[method] as KnownRoute['method'],
          path: path.replaceAll('//', '/'),
          allowed: Reflect.getMetadata(ALLOWED, handler) ?? Reflect.getMetadata(ALLOWED, controller),
        },
      ];
    });
  });
}
