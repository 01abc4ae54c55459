import { type CanActivate, type ExecutionContext, Injectable } from '@nestjs/common';
import { Reflector } from '@nestjs/core';
import { ALLOWED, type Allowed, type RequestWithCaller } from './allow.js';
import { CallerSource } from './caller.js';
import { ForeignOrigin, NotAllowed, NotSignedIn } from './identity.errors.js';

export const SESSION_COOKIE = 'skidkeep_session';
const SAFE_METHODS = new Set(['GET', 'HEAD', 'OPTIONS']);

/** Lets a request through when its route says that its caller may call it. */
@Injectable()
export class CallerGuard implements CanActivate {
  constructor(
    private readonly reflector: Reflector,
    private readonly callers: CallerSource,
  ) {}

  async canActivate(context: ExecutionContext): Promise<boolean> {
    const allowed = this.reflector.getAllAndOverride<Allowed | undefined>(ALLOWED, [context.getHandler(), context.getClass()]);
    const request = context.switchToHttp().getRequest<RequestWithCaller>();
    const bearer = /^Bearer (\S+)$/.exec(request.headers.authorization ?? '')?.[1];
    if (bearer === undefined) requireSameOrigin(request);
    if (allowed === 'anyone') return true;
    if (allowed === undefined) throw new NotAllowed('This address may be called by nobody');
    const caller = await this.callers.find({ sessionToken: request.cookies[SESSION_COOKIE], bearer });
    if (caller === null) throw new NotSignedIn('Sign in first');
    if (allowed === 'signed in' ? caller.role === 'gateway' : !allowed.includes(caller.role)) throw new NotAllowed(`A ${caller.role} may not do this`);
    request.caller = caller;
    return true;
  }
}

/** A page of another site must not write with the cookie of a person who is signed in here. */
function requireSameOrigin(request: RequestWithCaller): void {
  if (SAFE_METHODS.has(request.method)) return;
  const { origin, host } = request.headers;
  let same = false;
  try {
    same = origin !== undefined && new URL(origin).host === host;
  } catch {
    // an Origin that is no address is foreign
  }
  if (!same) throw new ForeignOrigin('Requests that change something need an Origin header of this very address');
}
