import { Prisma } from '../../generated/prisma/client.js';
import { Conflict, type DomainError, InvalidRequest } from '../errors/errors.js';

/**
 * What a caller may be told of an error of the database that a use case did not expect; undefined when it is our fault.
 * Prisma: P2002 a doubled key, P2003 a reference to nothing. PostgreSQL: 23505, 23503 the same, 23514 a check, 22P05 and 22021 a character that text cannot hold.
 */
export function databaseProblem(error: unknown): DomainError | undefined {
  switch (codeOf(error)) {
    case 'P2002':
    case '23505':
      return new Conflict('There is one with these values already');
    case 'P2003':
    case '23503':
      return new InvalidRequest('It refers to something that does not exist');
    case '23514':
      return new InvalidRequest('The values contradict each other');
    case '22P05':
    case '22021':
      return new InvalidRequest('The text holds a character that cannot be stored (U+0000)');
    default:
      return undefined;
  }
}

function codeOf(error: unknown): string | undefined {
  if (error instanceof Prisma.PrismaClientKnownRequestError) {
    const cause = (error.meta as { driverAdapterError?: { cause?: { originalCode?: string } } } | undefined)?.driverAdapterError?.cause;
    return error.code === 'P2002' || error.code === 'P2003' ? error.code : cause?.originalCode;
  }
  return (error as { code?: string } | undefined)?.code;
}
