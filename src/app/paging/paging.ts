import { ApiPropertyOptional } from '@nestjs/swagger';
import { Type } from 'class-transformer';
import { IsInt, IsOptional, IsString, isUUID, Length, Max, Min } from 'class-validator';
import { InvalidRequest } from '../errors/errors.js';

/** The part of a list that is asked for. */
export class PageQuery {
  /** At most this many, 1 to 200 */
  @Type(() => Number)
  @IsInt()
  @Min(1)
  @Max(200)
  @ApiPropertyOptional({ type: 'integer' })
  limit: number = 50;

  /** `next` of the page before */
  @IsOptional()
  @IsString()
  @Length(1, 400)
  cursor?: string;

  /** Words to look for */
  @IsOptional()
  @IsString()
  @Length(0, 100)
  find?: string;
}

export interface PageOf<T> {
  readonly items: T[];
  /** Ask for the next page with it; null at the end */
  readonly next: string | null;
}

/** Cuts the one row too many that was read to know whether there is more. */
export function toPage<Row, T>(rows: readonly Row[], limit: number, view: (row: Row) => T, keyOf: (row: Row) => readonly (string | number)[]): PageOf<T> {
  const shown = rows.slice(0, limit);
  const last = shown.at(-1);
  const next = rows.length > limit && last !== undefined ? Buffer.from(JSON.stringify(keyOf(last))).toString('base64url') : null;
  return { items: shown.map(view), next };
}

/** The key of the last row of the page before; undefined on the first page. */
export function readCursor(cursor: string | undefined, parts: number): (string | number)[] | undefined {
  if (cursor === undefined) return undefined;
  try {
    const key: unknown = JSON.parse(Buffer.from(cursor, 'base64url').toString('utf8'));
    if (Array.isArray(key) && key.length === parts && key.every((part) => typeof part === 'string' || typeof part === 'number')) return key;
  } catch {
    // falls through to the refusal
  }
  throw foreignCursor(cursor);
}

/** Of a list in the order of its ids. */
export function readIdCursor(cursor: string | undefined): string | undefined {
  const [id] = readCursor(cursor, 1) ?? [];
  if (id !== undefined && !isUUID(id)) throw foreignCursor(cursor);
  return id === undefined ? undefined : String(id);
}

/** Of a list in the order of moments, in milliseconds. */
export function readMomentCursor(cursor: string | undefined): Date | undefined {
  const [ms] = readCursor(cursor, 1) ?? [];
  if (ms === undefined) return undefined;
  const moment = new Date(ms);
  if (typeof ms !== 'number' || ms < 0 || Number.isNaN(moment.getTime())) throw foreignCursor(cursor);
  return moment;
}

export function foreignCursor(cursor: string | undefined): InvalidRequest {
  return new InvalidRequest('The cursor is not one that a list of this kind gave', [{ pointer: 'cursor', message: `"${cursor}" is not a cursor` }]);
}
