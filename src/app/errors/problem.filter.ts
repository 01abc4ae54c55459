import { type ArgumentsHost, Catch, type ExceptionFilter, HttpException, Logger } from '@nestjs/common';
import type { FastifyReply, FastifyRequest } from 'fastify';
import { databaseProblem } from '../database/database-errors.js';
import { DomainError, type FieldProblem } from './errors.js';

interface Problem {
  readonly type: string;
  readonly title: string;
  readonly status: number;
  readonly code: string;
  readonly errors?: readonly FieldProblem[];
}

/** Every error leaves as application/problem+json (RFC 9457). */
@Catch()
export class ProblemFilter implements ExceptionFilter {
  private readonly log = new Logger(ProblemFilter.name);

  catch(error: unknown, host: ArgumentsHost): void {
    const reply = host.switchToHttp().getResponse<FastifyReply>();
    const request = host.switchToHttp().getRequest<FastifyRequest>();
    if (request.raw.destroyed && !request.raw.complete) return; // the caller hung up: nobody to answer, nothing wrong here
    const problem = toProblem(error);
    if (problem.status >= 500) this.log.error(error instanceof Error ? error.stack : String(error), `${request.method} ${withoutSecrets(request.url)}`);
    void reply.status(problem.status).header('content-type', 'application/problem+json; charset=utf-8').send(problem);
  }
}

/** Links and calendar addresses hold a token of 43 characters: whoever reads the log must not be able to use it. */
const withoutSecrets = (url: string): string => url.replace(/[\w-]{43,}/g, '…');

function toProblem(error: unknown): Problem {
  const known = error instanceof DomainError ? error : databaseProblem(error);
  if (known !== undefined) {
    const base = problem(known.status, known.code, known.message);
    return known.fields.length === 0 ? base : { ...base, errors: known.fields };
  }
  // A validator that measures text in bytes meets half of a surrogate pair.
  if (error instanceof URIError) return problem(400, 'request/invalid', 'A text holds half of a character (a lone surrogate): send it as a whole');
  if (error instanceof HttpException) return problem(error.getStatus(), `http/${error.getStatus()}`, error.message);
  const status = (error as { statusCode?: unknown } | undefined)?.statusCode; // Fastify's own errors
  if (typeof status === 'number' && status >= 400 && status < 500) return problem(status, `http/${status}`, (error as Error).message);
  return problem(500, 'http/500', 'Something went wrong on our side; nothing was changed');
}

function problem(status: number, code: string, title: string): Problem {
  return { type: 'about:blank', title, status, code };
}
