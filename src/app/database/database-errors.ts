import { Prisma } from '../../generated/prisma/client.js';
import { Conflict, type DomainError, type FieldProblem, InvalidRequest } from '../errors/errors.js';

/**
 * What a caller may be told of an error of the database that a use case did not expect; undefined when it is our fault.
 * Prisma: P2002 a doubled key, P2003 a reference to nothing. PostgreSQL: 23505, 23503 the same, 23514 a check, 22P05 and 22021 a character that text cannot hold,
 * 40P01 two transactions that waited for each other.
 */
export function databaseProblem(error: unknown): DomainError | undefined {
  const { code, constraint } = faultOf(error);
  switch (code) {
    case 'P2002':
    case '23505':
      return new Conflict('There is one with these values already', fieldProblems(constraint, 'another one has this value already: choose another'));
    case 'P2003':
    case '23503':
      return new InvalidRequest('It refers to something that does not exist', fieldProblems(constraint, 'there is none with this id'));
    case '23514':
      return new InvalidRequest('The values contradict each other');
    case '22P05':
    case '22021':
      return new InvalidRequest('The text holds a character that cannot be stored (U+0000)');
    case '40P01':
      return new Conflict('Another change stood in the way; nothing was changed. Send it again');
    default:
      return undefined;
  }
}

interface Fault {
  readonly code?: string | undefined;
  readonly constraint?: string | undefined;
}

function faultOf(error: unknown): Fault {
  if (!(error instanceof Prisma.PrismaClientKnownRequestError)) return (error ?? {}) as Fault;
  const meta = error.meta as { driverAdapterError?: { cause?: { originalCode?: string; constraint?: { index?: string } } } } | undefined;
  const cause = meta?.driverAdapterError?.cause;
  return { code: error.code === 'P2002' || error.code === 'P2003' ? error.code : cause?.originalCode, constraint: cause?.constraint?.index };
}

/** The field that a constraint such as `site_client_id_name_key` or `site_client_id_fkey` is about, where its name tells. */
function fieldProblems(constraint: string | undefined, message: string): FieldProblem[] {
  const column = /_(name|email|code|serial_number|kind)_key$/.exec(constraint ?? '')?.[1] ?? /_([a-z]+_id)_fkey$/.exec(constraint ?? '')?.[1];
  return column === undefined ? [] : [{ pointer: `#/${column.replace(/_([a-z])/g, (_, letter: string) => letter.toUpperCase())}`, message }];
}
