import { type CallHandler, createParamDecorator, type ExecutionContext, Injectable, type NestInterceptor } from '@nestjs/common';
import { ApiHeader } from '@nestjs/swagger';
import type { FastifyReply, FastifyRequest } from 'fastify';
import { map, type Observable } from 'rxjs';
import { EditedMeanwhile, etagOf, versionSeen } from './if-match.js';

/** The version of the record that the caller has seen. */
export const VersionSeen = createParamDecorator((_: unknown, context: ExecutionContext): number =>
  versionSeen(context.switchToHttp().getRequest<FastifyRequest>().headers['if-match']),
);

/** Says in the description of the API that the route needs the header. */
export const TakesVersion = () =>
  ApiHeader({
    name: 'If-Match',
    required: false,
    description: 'The ETag of the record as it was read. Without it, or when somebody edited since, nothing is changed',
  });

/** Sends the version of the record that a route answers with as its ETag. */
@Injectable()
export class EtagInterceptor implements NestInterceptor<{ version?: number } | undefined> {
  intercept(context: ExecutionContext, next: CallHandler<{ version?: number } | undefined>): Observable<{ version?: number } | undefined> {
    return next.handle().pipe(
      map((answer) => {
        if (answer?.version !== undefined) void context.switchToHttp().getResponse<FastifyReply>().header('etag', etagOf(answer.version));
        return answer;
      }),
    );
  }
}

/** The one row that an edit of a record, of the version that the caller has seen, has changed. */
export function takeEdited<Row>(rows: readonly Row[], what: string): Row {
  const [row] = rows;
  if (row === undefined) throw new EditedMeanwhile(`The ${what} was edited after you read it. Read it again, and make your change to that`);
  return row;
}
