import { finished } from 'node:stream/promises';
import { setImmediate as otherWork } from 'node:timers/promises';
import { Injectable } from '@nestjs/common';
import type pg from 'pg';
import { from as copyFrom } from 'pg-copy-streams';
import { Database, type KeyedRequest, newId, once } from '../../app/index.js';
import { wasReplaced } from './plans.errors.js';
import type { LeftOutColumns, LineColumns, PlanColumns } from './stored-plans.repository.js';

export interface PlanToStore {
  readonly plan: PlanColumns;
  readonly lines: readonly LineColumns[];
  readonly leftOut: readonly LeftOutColumns[];
}

/** What the database gave to a plan that it stored. */
export interface StoredKeys {
  readonly id: string;
  readonly no: number;
  readonly lineIds: readonly string[];
}

/** So many lines are made ready while the database stores those before. */
const LINES_AT_ONCE = 200;

/** Stores plans, each in one transaction of `pg`: a plan has thousands of lines, and they come by COPY. */
@Injectable()
export class PlanWriter {
  constructor(private readonly database: Database) {}

  /** Stores a plan once for each key; the id alone where an earlier request stored it. A plan that was replaced meanwhile is not replaced again. */
  async store(key: KeyedRequest, made: PlanToStore): Promise<{ readonly id: string; readonly keys: StoredKeys | null }> {
    const tx = await this.database.pool.connect();
    let broken: Error | undefined;
    try {
      await tx.query('BEGIN');
      let keys: StoredKeys | null = null;
      const sql = { query: async <Row>(text: string, values: readonly unknown[]) => (await tx.query(text, [...values])).rows as Row[] };
      const { id } = await once(sql, key, async () => {
        if (made.plan.replacesId !== null) await holdToReplace(tx, made.plan.replacesId);
        keys = await addPlan(tx, made);
        return { id: keys.id };
      });
      await tx.query('COMMIT');
      return { id, keys };
    } catch (error) {
      // A session that cannot even roll back is in an unknown state and leaves the pool.
      await tx.query('ROLLBACK').catch((failure: Error) => {
        broken = failure;
      });
      throw error;
    } finally {
      tx.release(broken);
    }
  }
}

/** Keeps others from accepting or replacing the plan until the end of the transaction. */
async function holdToReplace(tx: pg.PoolClient, planId: string): Promise<void> {
  await tx.query('SELECT pg_advisory_xact_lock(hashtextextended($1, 0))', [`plan ${planId}`]);
  const {
    rows: [replaced],
  } = await tx.query<{ no: number; byNo: number }>(
    'SELECT p.no, later.no AS "byNo" FROM visit_plan p JOIN visit_plan later ON later.replaces_id = p.id WHERE p.id = $1',
    [planId],
  );
  if (replaced !== undefined) throw wasReplaced(replaced.no, replaced.byNo);
}

async function addPlan(tx: pg.PoolClient, { plan, lines, leftOut }: PlanToStore): Promise<StoredKeys> {
  const id = newId();
  const { replacesId, madeAt, madeById, madeBy, firstDay, days, seed, seconds, keepHours, verdict, travelSaid } = plan;
  const [peopleLeftOut, asked, costs, tours, changes] = [plan.peopleLeftOut, plan.asked, plan.costs, plan.tours, plan.changes].map((part) =>
    JSON.stringify(part),
  );
  const rates = plan.rates === null ? null : JSON.stringify(plan.rates);
  const { rows } = await tx.query<{ no: number }>(
    `INSERT INTO visit_plan (id, replaces_id, made_at, made_by_id, made_by, first_day, days, seed, seconds, keep_hours, verdict, travel_said, people_left_out, asked, costs, rates, tours,
                             changes)
     VALUES ($1, $2, $3, $4, $5, $6, $7, $8, $9, $10, $11, $12, $13, $14, $15, $16, $17, $18) RETURNING no`,
    [
      id,
      replacesId,
      madeAt,
      madeById,
      madeBy,
      firstDay,
      days,
      seed,
      seconds,
      keepHours,
      verdict,
      travelSaid,
      peopleLeftOut,
      asked,
      costs,
      rates,
      tours,
      changes,
    ],
  );
  const lineIds = lines.map(newId);
  await copyLines(tx, id, lines, lineIds);
  if (leftOut.length === 0) return { id, no: rows[0]?.no ?? 0, lineIds };
  await tx.query(
    `INSERT INTO plan_left_out (id, plan_id, place, kind, work_id, site_id, text, urgent, promised, reason)
     SELECT id, $1, place, kind, "workId", "siteId", text, urgent, promised, reason
       FROM jsonb_to_recordset($2::jsonb)
         AS l(id uuid, place int, kind text, "workId" uuid, "siteId" uuid, text text, urgent boolean, promised boolean, reason text)`,
    [id, JSON.stringify(leftOut.map((item) => ({ ...item, id: newId() })))],
  );
  return { id, no: rows[0]?.no ?? 0, lineIds };
}

async function copyLines(tx: pg.PoolClient, planId: string, lines: readonly LineColumns[], lineIds: readonly string[]): Promise<void> {
  const stream = tx.query(copyFrom(`COPY plan_line (id, plan_id, ${Object.keys(FIELDS).join(', ')}) FROM STDIN`));
  const done = finished(stream);
  done.catch(() => {}); // told below, when the last line was written
  for (let from = 0; from < lines.length && stream.errored === null; from += LINES_AT_ONCE) {
    stream.write(
      lines
        .slice(from, from + LINES_AT_ONCE)
        .map((line, at) => rowOf(line, planId, lineIds[from + at] ?? ''))
        .join(''),
    );
    await otherWork();
  }
  if (stream.errored === null) stream.end();
  await done;
}

/** Beside its own id and that of its plan. */
const FIELDS: Readonly<Record<string, keyof LineColumns>> = {
  place: 'place',
  change: 'change',
  visit_id: 'visitId',
  visit_version: 'visitVersion',
  promised: 'promised',
  was: 'was',
  site_id: 'siteId',
  on_day: 'onDay',
  start_time: 'startTime',
  end_time: 'endTime',
  travel_minutes: 'travelMinutes',
  work_minutes: 'workMinutes',
  people: 'people',
  work: 'work',
  reason: 'reason',
  why: 'why',
};
const FIELD_NAMES = Object.values(FIELDS);

const rowOf = (line: LineColumns, planId: string, id: string): string => `${id}\t${planId}\t${FIELD_NAMES.map((name) => fieldOf(line[name])).join('\t')}\n`;

const ESCAPED: Readonly<Record<string, string>> = { '\\': '\\\\', '\n': '\\n', '\r': '\\r', '\t': '\\t' };

/** As COPY reads it. Source: PostgreSQL documentation, COPY, text format. */
function fieldOf(value: string | number | boolean | object | null): string {
  if (value === null) return '\\N';
  const text = typeof value === 'object' ? JSON.stringify(value) : String(value);
  return text.replaceAll(/[\\\n\r\t]/g, (character) => ESCAPED[character] ?? '');
}
