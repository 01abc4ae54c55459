import { Injectable } from '@nestjs/common';
import { type Caller, Database, newId } from '../../app/index.js';
import type { ProblemReport } from '../core/problem-list.js';
import type { StoreCounts } from './record-store.repository.js';
import { type Statements, toJsonb } from './transactions.repository.js';

export const LOAD_KINDS = ['samples', 'cycles', 'events', 'hand', 'job'] as const;
export type LoadKind = (typeof LOAD_KINDS)[number];

export interface LoadRow extends StoreCounts {
  readonly id: string;
  readonly no: number;
  readonly skidId: string;
  readonly kind: string;
  readonly name: string;
  readonly sha256: string;
  readonly by: string;
  readonly at: Date;
  readonly doubtful: number;
  readonly refused: number;
  readonly problems: unknown;
}

export interface LoadEnd extends StoreCounts {
  readonly sha256: string;
  readonly doubtful: number;
  readonly refused: number;
  readonly problems: ProblemReport & { readonly rows: number };
}

/** The book of loads: who brought what, when, and what became of it. */
@Injectable()
export class LoadsRepository {
  constructor(private readonly database: Database) {}

  async open(
    tx: Statements,
    load: { clientId: string; skidId: string; kind: LoadKind; name: string; by: string; at: Date },
  ): Promise<{ id: string; no: number }> {
    const id = newId();
    const { rows } = await tx.query<{ no: number }>(
      `INSERT INTO load (id, client_id, skid_id, kind, name, sha256, by, at) VALUES ($1, $2, $3, $4, $5, '', $6, $7) RETURNING no`,
      [id, load.clientId, load.skidId, load.kind, load.name, load.by, load.at],
    );
    return { id, no: rows[0]?.no ?? 0 };
  }

  async close(tx: Statements, id: string, end: LoadEnd): Promise<void> {
    await tx.query(
      `UPDATE load SET sha256 = $2, kept = $3, known = $4, differing = $5, replaced = $6, doubtful = $7, refused = $8, problems = $9::jsonb WHERE id = $1`,
      [id, end.sha256, end.kept, end.known, end.differing, end.replaced, end.doubtful, end.refused, toJsonb(end.problems)],
    );
  }

  async find(caller: Caller, id: string): Promise<LoadRow | null> {
    return this.database.readFor(caller, (reader) => reader.load.findUnique({ where: { id } }));
  }

  /** The latest first. `before` is the number of the last load of the page before. */
  async list(caller: Caller, skidId: string, page: { before: number | undefined; find: string; take: number }): Promise<LoadRow[]> {
    const { before, find, take } = page;
    return this.database.readFor(caller, (reader) =>
      reader.load.findMany({
        where: {
          skidId,
          ...(before === undefined ? {} : { no: { lt: before } }),
          ...(find === '' ? {} : { OR: [{ name: { contains: find, mode: 'insensitive' } }, { by: { contains: find, mode: 'insensitive' } }] }),
        },
        orderBy: { no: 'desc' },
        take,
      }),
    );
  }
}
