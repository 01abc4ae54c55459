import { Injectable } from '@nestjs/common';
import { type Caller, Clock, type KeyedRequest, once, Recompute } from '../app/index.js';
import { ProblemList, type ProblemReport } from './core/problem-list.js';
import { type LoadKind, LoadsRepository } from './repositories/loads.repository.js';
import { type LoadScope, noCounts, type StoreCounts } from './repositories/record-store.repository.js';
import type { SkidPlace } from './repositories/skids.repository.js';
import { type Statements, sqlOf, type Transaction, Transactions } from './repositories/transactions.repository.js';

export interface LoadRequest {
  readonly skid: SkidPlace;
  readonly caller: Caller;
  readonly kind: LoadKind;
  /** Of the file, or what kind of entry it was */
  readonly name: string;
  readonly dryRun: boolean;
  readonly replaceDiffering: boolean;
  /** So that the same request is carried out once */
  readonly idempotency?: KeyedRequest;
}

/** A load while it is being stored. */
export interface OpenLoad<Tx extends Statements = Transaction> {
  readonly tx: Tx;
  readonly scope: LoadScope;
  readonly problems: ProblemList;
  readonly counts: StoreCounts;
}

/** What the rows held, once all are read. */
export interface LoadContent {
  readonly rows: number;
  readonly sha256: string;
  readonly preview: readonly PreviewRow[];
}

/** A row as it was understood. */
export interface PreviewRow {
  readonly line: number;
  readonly at: Date;
  readonly fields: readonly { readonly name: string; readonly value: string | number; readonly unit: string | null }[];
}

export interface LoadReport extends StoreCounts, LoadContent {
  /** Null for a dry run */
  readonly id: string | null;
  readonly kind: LoadKind;
  readonly name: string;
  readonly doubtful: number;
  readonly refused: number;
  readonly problems: ProblemReport;
}

/** The frame of every load: one transaction, its entry in the book of loads, and the conclusions of the skid made again if anything has changed. */
@Injectable()
export class Loading {
  constructor(
    private readonly transactions: Transactions,
    private readonly loads: LoadsRepository,
    private readonly recompute: Recompute,
    private readonly clock: Clock,
  ) {}

  async run(request: LoadRequest, work: (load: OpenLoad) => Promise<LoadContent>): Promise<LoadReport> {
    const { skid, dryRun, idempotency } = request;
    return this.transactions.ofSkid(skid.no, dryRun, (tx) =>
      idempotency === undefined || dryRun ? this.carryOut(tx, request, work) : once(sqlOf(tx), idempotency, () => this.carryOut(tx, request, work)),
    );
  }

  private async carryOut(tx: Transaction, request: LoadRequest, work: (load: OpenLoad) => Promise<LoadContent>): Promise<LoadReport> {
    const { skid, caller, kind, name, dryRun, replaceDiffering } = request;
    const opening = { clientId: skid.clientId, skidId: skid.id, kind, name, by: caller.name, at: this.clock.now() };
    const { id, no } = await this.loads.open(tx, opening);
    const load: OpenLoad = { tx, scope: { skidId: skid.id, loadNo: no, replaceDiffering }, problems: new ProblemList(), counts: noCounts() };
    const { rows, sha256, preview } = await work(load);
    const { counts, problems } = load;
    const ends = { ...counts, doubtful: problems.count('doubtful'), refused: problems.count('refused') };
    const report = problems.report();
    await this.loads.close(tx, id, { ...ends, sha256, problems: { rows, ...report } });
    if (counts.kept + counts.replaced > 0 && !dryRun) await this.recompute.later(skid.id, tx);
    return { id: dryRun ? null : id, kind, name, rows, sha256, preview, ...ends, problems: report };
  }
}
