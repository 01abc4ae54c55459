import { rolesSql } from '../database/roles-sql.js';
import type { Settings } from '../settings.js';
import { StartProblem } from './start-problem.js';

const UNREACHABLE = new Set(['ECONNREFUSED', 'ECONNRESET', 'ETIMEDOUT', 'EHOSTUNREACH', 'ENETUNREACH', 'ENOTFOUND', 'EAI_AGAIN']);

interface Failure extends Error {
  readonly code?: string;
  readonly syscall?: string;
  readonly path?: string;
  readonly errors?: readonly unknown[];
  /** Where Prisma keeps the error of the database */
  readonly meta?: { readonly driverAdapterError?: { readonly cause?: { readonly originalCode?: string } } };
}

type Asked = Pick<Settings, 'port' | 'host' | 'databaseUrl' | 'dataDir'>;

/** What an error that ends the start means to the person who started it; undefined for errors that are ours to mend. */
export function sentenceFor(error: unknown, asked: Asked): string | undefined {
  for (const failure of causesOf(error)) {
    const sentence =
      failure instanceof StartProblem ? failure.message : (listenProblem(failure, asked) ?? databaseProblem(failure, asked) ?? fileProblem(failure, asked));
    if (sentence !== undefined) return sentence;
  }
  return undefined;
}

function listenProblem({ code, syscall }: Failure, { port, host }: Asked): string | undefined {
  if (code === 'EADDRINUSE') return `Port ${port} is in use: stop the program that uses it, or set PORT to another number.`;
  if (syscall !== 'listen') return undefined;
  if (code === 'EACCES') return `This user may not listen on port ${port}: set PORT to a number above 1023.`;
  return `The service cannot listen on ${host}: set HOST to an address of this machine.`;
}

function databaseProblem({ code, message }: Failure, { databaseUrl }: Asked): string | undefined {
  if (databaseUrl === undefined) return undefined;
  const { host, pathname } = new URL(databaseUrl);
  const name = decodeURIComponent(pathname.slice(1));
  if (UNREACHABLE.has(code ?? '') || message === 'timeout expired') {
    return `The database at ${host} cannot be reached (${code ?? message}): see that PostgreSQL runs there, or set DATABASE_URL to where it does.`;
  }
  if (code === '28P01' || code === '28000' || message.startsWith('SASL:'))
    return `The database at ${host} refuses the user and password of DATABASE_URL: correct them.`;
  if (code === '3D000') return `There is no database "${name}" at ${host}: create it, or set DATABASE_URL to another.`;
  if (code === '53300') return `The database at ${host} has no connection left: raise its max_connections, or stop other programs that use it.`;
  if (code === '57P03') return `The database at ${host} is starting or stopping: start again in a moment.`;
  if (code === '42501') {
    return `The user of DATABASE_URL may not make the roles and tables that Skidkeep needs: let an administrator of the server run this SQL, then start again.\n${rolesSql(databaseUrl)}`;
  }
  return undefined;
}

function fileProblem({ code, path }: Failure, { dataDir, databaseUrl }: Asked): string | undefined {
  if (code === '53100' && databaseUrl !== undefined) return 'The disk of the database server is full: make room there, then start again.';
  if (code === 'ENOSPC' || code === '53100') return `The disk with ${path ?? dataDir} is full: make room, then start again.`;
  if (path !== undefined && (code === 'EACCES' || code === 'EPERM' || code === 'EROFS')) {
    return `This user may not write ${path}: start as its owner, or set DATA_DIR to another folder.`;
  }
  return undefined;
}

/** The error, what caused it, and the attempts that it sums up. */
function causesOf(error: unknown): Failure[] {
  if (!(error instanceof Error)) return [];
  const { errors = [], meta } = error as Failure;
  const code = meta?.driverAdapterError?.cause?.originalCode;
  const told = code === undefined ? [] : [Object.assign(new Error(error.message), { code })];
  return [error, ...told, ...errors.flatMap(causesOf), ...causesOf(error.cause)];
}
