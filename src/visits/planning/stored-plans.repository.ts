import { newId, type Reader } from '../../app/index.js';
import type { PlanChange } from '../core/plan-facts/plan-changes.js';
import type { PlanRates } from '../core/plan-facts/plan-prices.js';
import type { PlanVerdict, StoredCost, StoredPerson, StoredTour, StoredWas, StoredWhy, StoredWork } from './stored-plan.js';

export interface PlanColumns {
  readonly replacesId: string | null;
  readonly madeAt: Date;
  readonly madeById: string;
  readonly madeBy: string;
  readonly firstDay: string;
  readonly days: number;
  readonly seed: number;
  readonly seconds: number;
  readonly keepHours: number;
  readonly verdict: PlanVerdict;
  readonly asked: object;
  readonly costs: readonly StoredCost[];
  readonly rates: PlanRates | null;
  readonly tours: readonly StoredTour[];
  readonly changes: readonly PlanChange[];
  readonly peopleLeftOut: readonly string[];
  readonly travelSaid: string | null;
}

export interface LineColumns {
  readonly place: number;
  readonly change: 'new' | 'stays' | 'shift';
  readonly visitId: string | null;
  readonly visitVersion: number | null;
  readonly promised: boolean;
  readonly was: StoredWas | null;
  readonly siteId: string;
  readonly onDay: string;
  readonly startTime: string;
  readonly endTime: string;
  readonly travelMinutes: number;
  readonly workMinutes: number;
  readonly people: readonly StoredPerson[];
  readonly work: readonly StoredWork[];
  readonly reason: string;
  readonly why: StoredWhy;
}

export interface LeftOutColumns {
  readonly place: number;
  readonly kind: 'job' | 'due' | 'visit';
  readonly workId: string;
  readonly siteId: string;
  readonly text: string;
  readonly urgent: boolean;
  readonly promised: boolean;
  readonly reason: string;
}

const withId = <Row extends object>(row: Row) => ({ ...row, id: newId() });

/** Stores a plan; three statements of one text each, however long it is: the values of thousands of lines would cost more to bind than to store. */
export async function addPlan(tx: Reader, plan: PlanColumns, lines: readonly LineColumns[], leftOut: readonly LeftOutColumns[]): Promise<string> {
  const id = newId();
  await tx.$executeRaw`
    INSERT INTO visit_plan (id, replaces_id, made_at, made_by_id, made_by, first_day, days, seed, seconds, keep_hours, verdict, asked, costs, tours, changes, people_left_out, travel_said,
                            rates)
    SELECT ${id}::uuid, "replacesId", "madeAt", "madeById", "madeBy", "firstDay", days, seed, seconds, "keepHours", verdict, asked, costs, tours, changes, "peopleLeftOut", "travelSaid", rates
      FROM jsonb_to_record(${JSON.stringify(plan)}::jsonb)
        AS p("replacesId" uuid, "madeAt" timestamptz, "madeById" uuid, "madeBy" text, "firstDay" date, days int, seed int, seconds int, "keepHours" int, verdict text, asked jsonb,
             costs jsonb, tours jsonb, changes jsonb, "peopleLeftOut" jsonb, "travelSaid" text, rates jsonb)`;
  await tx.$executeRaw`
    INSERT INTO plan_line (id, plan_id, place, change, visit_id, visit_version, promised, was, site_id, on_day, start_time, end_time, travel_minutes, work_minutes, people, work, reason, why)
    SELECT id, ${id}::uuid, place, change, "visitId", "visitVersion", promised, was, "siteId", "onDay", "startTime", "endTime", "travelMinutes", "workMinutes", people, work, reason, why
      FROM jsonb_to_recordset(${JSON.stringify(lines.map(withId))}::jsonb)
        AS l(id uuid, place int, change text, "visitId" uuid, "visitVersion" int, promised boolean, was jsonb, "siteId" uuid, "onDay" date, "startTime" text, "endTime" text,
             "travelMinutes" int, "workMinutes" int, people jsonb, work jsonb, reason text, why jsonb)`;
  await tx.$executeRaw`
    INSERT INTO plan_left_out (id, plan_id, place, kind, work_id, site_id, text, urgent, promised, reason)
    SELECT id, ${id}::uuid, place, kind, "workId", "siteId", text, urgent, promised, reason
      FROM jsonb_to_recordset(${JSON.stringify(leftOut.map(withId))}::jsonb)
        AS l(id uuid, place int, kind text, "workId" uuid, "siteId" uuid, text text, urgent boolean, promised boolean, reason text)`;
  return id;
}

export interface StoredLine extends LineColumns {
  readonly id: string;
  readonly site: { readonly name: string };
  readonly visit: { readonly no: number } | null;
  readonly acceptance: { readonly at: Date; readonly by: string; readonly visitId: string; readonly visit: { readonly no: number } } | null;
}

export interface StoredLeftOut extends LeftOutColumns {
  readonly site: { readonly name: string };
}

export interface StoredPlan extends PlanColumns {
  readonly id: string;
  readonly no: number;
  readonly replaces: { readonly no: number } | null;
  readonly replacedBy: { readonly id: string; readonly no: number } | null;
  readonly lines: readonly StoredLine[];
  readonly leftOut: readonly StoredLeftOut[];
}

/** Null: there is none. One text for all: thousands of lines are read from it many times sooner than from as many rows. */
export async function findPlan(reader: Reader, id: string): Promise<StoredPlan | null> {
  const [row] = await reader.$queryRaw<{ plan: string; lines: string; leftOut: string }[]>`
    SELECT json_build_object('id', p.id, 'no', p.no, 'replacesId', p.replaces_id, 'madeAt', p.made_at, 'madeById', p.made_by_id, 'madeBy', p.made_by, 'firstDay', p.first_day,
             'days', p.days, 'seed', p.seed, 'seconds', p.seconds, 'keepHours', p.keep_hours, 'verdict', p.verdict, 'asked', p.asked, 'costs', p.costs, 'rates', p.rates, 'tours', p.tours,
             'changes', p.changes, 'peopleLeftOut', p.people_left_out, 'travelSaid', p.travel_said,
             'replaces', CASE WHEN earlier.id IS NOT NULL THEN json_build_object('no', earlier.no) END,
             'replacedBy', CASE WHEN later.id IS NOT NULL THEN json_build_object('id', later.id, 'no', later.no) END)::text AS plan,
           (SELECT coalesce(json_agg(json_build_object('id', l.id, 'place', l.place, 'change', l.change, 'visitId', l.visit_id, 'visitVersion', l.visit_version, 'promised', l.promised,
                     'was', l.was, 'siteId', l.site_id, 'onDay', l.on_day, 'startTime', l.start_time, 'endTime', l.end_time, 'travelMinutes', l.travel_minutes,
                     'workMinutes', l.work_minutes, 'people', l.people, 'work', l.work, 'reason', l.reason, 'why', l.why, 'site', json_build_object('name', s.name),
                     'visit', CASE WHEN v.id IS NOT NULL THEN json_build_object('no', v.no) END,
                     'acceptance', CASE WHEN a.line_id IS NOT NULL
                       THEN json_build_object('at', a.at, 'by', a.by, 'visitId', a.visit_id, 'visit', json_build_object('no', made.no)) END) ORDER BY l.place), '[]')::text
              FROM plan_line l JOIN site s ON s.id = l.site_id LEFT JOIN visit v ON v.id = l.visit_id
              LEFT JOIN plan_acceptance a ON a.line_id = l.id LEFT JOIN visit made ON made.id = a.visit_id WHERE l.plan_id = p.id) AS lines,
           (SELECT coalesce(json_agg(json_build_object('place', o.place, 'kind', o.kind, 'workId', o.work_id, 'siteId', o.site_id, 'text', o.text, 'urgent', o.urgent,
                     'promised', o.promised, 'reason', o.reason, 'site', json_build_object('name', s.name)) ORDER BY o.place), '[]')::text
              FROM plan_left_out o JOIN site s ON s.id = o.site_id WHERE o.plan_id = p.id) AS "leftOut"
      FROM visit_plan p LEFT JOIN visit_plan earlier ON earlier.id = p.replaces_id LEFT JOIN visit_plan later ON later.replaces_id = p.id WHERE p.id = ${id}::uuid`;
  if (row === undefined) return null;
  const plan = JSON.parse(row.plan) as Omit<StoredPlan, 'madeAt' | 'lines' | 'leftOut'> & { madeAt: string };
  const lines = JSON.parse(row.lines) as (Omit<StoredLine, 'acceptance'> & {
    acceptance: (Omit<NonNullable<StoredLine['acceptance']>, 'at'> & { at: string }) | null;
  })[];
  return {
    ...plan,
    madeAt: new Date(plan.madeAt),
    lines: lines.map(({ acceptance, ...line }) => ({ ...line, acceptance: acceptance === null ? null : { ...acceptance, at: new Date(acceptance.at) } })),
    leftOut: JSON.parse(row.leftOut) as StoredLeftOut[],
  };
}

export interface PlanHeadRow {
  readonly id: string;
  readonly no: number;
  readonly madeAt: Date;
  readonly madeBy: string;
  readonly firstDay: string;
  readonly days: number;
  readonly verdict: PlanVerdict;
  readonly replacesNo: number | null;
  readonly replacedByNo: number | null;
  readonly lines: number;
  readonly toAccept: number;
  readonly accepted: number;
  readonly leftOut: number;
}

/** Plans, the latest first. */
export const plansPage = (reader: Reader, before: number | null, limit: number): Promise<PlanHeadRow[]> =>
  reader.$queryRaw<PlanHeadRow[]>`
    SELECT p.id, p.no, p.made_at AS "madeAt", p.made_by AS "madeBy", to_char(p.first_day, 'YYYY-MM-DD') AS "firstDay", p.days, p.verdict,
           earlier.no AS "replacesNo", later.no AS "replacedByNo", l.lines, l."toAccept", l.accepted,
           (SELECT count(*)::int FROM plan_left_out WHERE plan_id = p.id) AS "leftOut"
      FROM visit_plan p LEFT JOIN visit_plan earlier ON earlier.id = p.replaces_id LEFT JOIN visit_plan later ON later.replaces_id = p.id
      CROSS JOIN LATERAL (SELECT count(*)::int AS lines, count(*) FILTER (WHERE change <> 'stays')::int AS "toAccept", count(a.line_id)::int AS accepted
                            FROM plan_line k LEFT JOIN plan_acceptance a ON a.line_id = k.id WHERE k.plan_id = p.id) l
     WHERE ${before}::int IS NULL OR p.no < ${before}::int ORDER BY p.no DESC LIMIT ${limit + 1}`;

/** Keeps others from accepting or replacing the plan until the end of the transaction. Its row is never edited, and cannot be locked itself. */
export const holdPlan = (tx: Reader, id: string): Promise<unknown> => tx.$queryRaw`SELECT pg_advisory_xact_lock(hashtextextended(${`plan ${id}`}, 0))::text`;

export async function addAcceptances(
  tx: Reader,
  accepted: readonly { readonly lineId: string; readonly visitId: string }[],
  by: { readonly id: string; readonly name: string; readonly at: Date },
): Promise<void> {
  await tx.planAcceptance.createMany({ data: accepted.map((line) => ({ ...line, at: by.at, byId: by.id, by: by.name })) });
}
