import { createParamDecorator, type ExecutionContext, SetMetadata } from '@nestjs/common';
import type { FastifyRequest } from 'fastify';
import type { Caller, Role } from './caller.js';

export const ALLOWED = 'skidkeep:allowed';
export type Allowed = 'anyone' | 'signed in' | readonly Role[];

/** Who may call a route. A route that says nothing is refused. */
export const Allow = (...roles: [Role, ...Role[]]) => SetMetadata(ALLOWED, roles satisfies Allowed);

/** Every person who signed in, clients too: the route itself must read through `Database.readFor`. */
export const AllowSignedIn = () => SetMetadata(ALLOWED, 'signed in' satisfies Allowed);

/** A route that needs no sign-in. */
export const AllowAnyone = () => SetMetadata(ALLOWED, 'anyone' satisfies Allowed);

export interface RequestWithCaller extends FastifyRequest {
  caller?: Caller;
}

/** The caller, whom the guard has found. */
export const CurrentCaller = createParamDecorator((_: unknown, context: ExecutionContext): Caller => {
  const { caller } = context.switchToHttp().getRequest<RequestWithCaller>();
  if (caller === undefined) throw new Error('A route that asks for the caller must not be open to anyone');
  return caller;
});
