import { Injectable } from '@nestjs/common';
import { type Caller, Database, likeOf } from '../../app/index.js';
import { SERVICE_LOG_SQL } from '../../intake/index.js';
import type { HistoryKind } from '../../shared/history-kinds.js';
import type { JobState, Severity } from '../../shared/work.js';

export interface HistoryPart {
  readonly kind: HistoryKind | undefined;
  readonly from: string | undefined;
  readonly to: string | undefined;
  readonly find: string;
  /** Moment and key of the last entry of the part before */
  readonly behind: readonly [at: string, key: string] | null;
  readonly take: number;
}

export interface HistoryRow {
  readonly id: string;
  readonly kind: HistoryKind;
  readonly event: string;
  readonly at: Date;
  readonly positionId: string | null;
  readonly positionName: string | null;
  readonly what: string;
  readonly by: string;
  readonly note: string;
  readonly jobId: string | null;
  readonly state: JobState | null;
  readonly severity: Severity | null;
}

/** Proofs, breakdowns and requests, beside what the service log has. */
const PROOFS = `
  SELECT 'integrity ' || t.id, 'integrity test', t.at, NULL::uuid,
         'Pressure-decay test: ' || t.outcome || ', ' || round(t.decay_kpa_min::numeric, 2) || ' kPa/min' || coalesce(', limit ' || round(t.control_limit_kpa_min::numeric, 2) || ' kPa/min', '')
           || coalesce(', log removal value ' || round(t.lrv::numeric, 2), ''),
         t.by, concat_ws('. ', nullif(array_to_string(t.reasons, '. '), ''), nullif(t.note, '')), NULL::uuid, NULL, NULL
    FROM integrity_test t WHERE t.skid_id = $1::uuid
  UNION ALL
  SELECT 'fibres ' || r.id, 'fibre repair', r.at, r.position_id, CASE r.fibres WHEN 1 THEN '1 fibre closed' ELSE r.fibres || ' fibres closed' END, r.by, r.note, NULL, NULL, NULL
    FROM fibre_repair r WHERE r.skid_id = $1::uuid
  UNION ALL
  SELECT 'calibration ' || c.id, 'calibration', c.at, c.position_id, 'Compared with a reference: found ' || c.as_found || ', left ' || c.as_left, c.by, c.note, NULL, NULL, NULL
    FROM calibration c WHERE c.skid_id = $1::uuid
  UNION ALL
  SELECT 'breakdown ' || j.id, 'breakdown', b.noticed_at, b.position_id, j.title, j.created_by,
         concat_ws('. ', CASE WHEN b.cause <> '' THEN 'Cause: ' || b.cause END, CASE WHEN b.remedy <> '' THEN 'Remedy: ' || b.remedy END), j.id, j.state, b.severity
    FROM job j JOIN breakdown b ON b.job_id = j.id WHERE j.skid_id = $1::uuid
  UNION ALL
  SELECT 'request ' || j.id, 'request', j.created_at, NULL, j.title, j.created_by, j.state_note, j.id, j.state, NULL
    FROM job j WHERE j.skid_id = $1::uuid AND j.kind = 'request'`;

const KIND = `CASE event WHEN 'service' THEN 'work' WHEN 'fitted' THEN 'part' WHEN 'removed' THEN 'part' WHEN 'exchange' THEN 'meter'
  WHEN 'integrity test' THEN 'integrity' WHEN 'fibre repair' THEN 'integrity' ELSE event END`;

/** $1 skid, $2 kind, $3 and $4 first and last day, $5 words, $6 and $7 the last entry before, $8 how many; the whole is counted in the same statement. */
const HISTORY = `
  WITH entry AS (
    SELECT log.id, log.kind AS event, log.at, log.position_id, log.what, log.by, log.note, NULL::uuid AS job_id, NULL AS state, NULL AS severity FROM (${SERVICE_LOG_SQL}) log
    UNION ALL ${PROOFS}
  ), kinded AS (SELECT e.*, ${KIND} AS kind FROM entry e),
  matching AS MATERIALIZED (
    SELECT e.*, p.name AS position_name
      FROM kinded e LEFT JOIN position p ON p.id = e.position_id CROSS JOIN (SELECT site.time_zone FROM skid s JOIN site ON site.id = s.site_id WHERE s.id = $1::uuid) place
     WHERE ($2::text IS NULL OR e.kind = $2) AND ($3::date IS NULL OR e.at >= $3::date::timestamp AT TIME ZONE place.time_zone)
       AND ($4::date IS NULL OR e.at < ($4::date + 1)::timestamp AT TIME ZONE place.time_zone)
       AND ($5::text IS NULL OR concat_ws(' ', e.what, e.note, e.by, p.name, e.event) ILIKE $5)
  )
  SELECT e.id, e.kind, e.event, e.at, e.position_id AS "positionId", e.position_name AS "positionName", e.what, coalesce(e.by, '') AS by, e.note, e.job_id AS "jobId", e.state, e.severity,
         (SELECT count(*) FROM matching)::int AS total
    FROM matching e WHERE (e.at, e.id) < ($6::timestamptz, $7) ORDER BY e.at DESC, e.id DESC LIMIT $8`;

/** All that happened at a skid, from the tables of ten kinds of facts: one statement, whatever is asked for. */
@Injectable()
export class HistoryRepository {
  constructor(private readonly database: Database) {}

  /** The latest first; entries of one moment by their key. */
  list(caller: Caller, skidId: string, { kind, from, to, find, behind, take }: HistoryPart): Promise<(HistoryRow & { readonly total: number })[]> {
    const like = likeOf(find);
    const [at, key] = behind ?? ['infinity', ''];
    return this.database.readFor(caller, (reader) => reader.$queryRawUnsafe(HISTORY, skidId, kind ?? null, from ?? null, to ?? null, like, at, key, take));
  }
}
