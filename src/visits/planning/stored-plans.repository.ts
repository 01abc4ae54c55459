import type { Reader } from '../../app/index.js';
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

/** Null: there is none. */
export async function findPlan(reader: Reader, id: string): Promise<StoredPlan | null> {
  const [plan] = await reader.$queryRaw<
    (PlanColumns & { id: string; no: number; replacesNo: number | null; replacedById: string | null; replacedByNo: number | null })[]
  >`
    SELECT p.id, p.no, p.replaces_id AS "replacesId", p.made_at AS "madeAt", p.made_by_id AS "madeById", p.made_by AS "madeBy", p.first_day::text AS "firstDay", p.days, p.seed, p.seconds,
           p.keep_hours AS "keepHours", p.verdict, p.asked, p.costs, p.rates, p.tours, p.changes, p.people_left_out AS "peopleLeftOut", p.travel_said AS "travelSaid",
           earlier.no AS "replacesNo", later.id AS "replacedById", later.no AS "replacedByNo"
      FROM visit_plan p LEFT JOIN visit_plan earlier ON earlier.id = p.replaces_id LEFT JOIN visit_plan later ON later.replaces_id = p.id WHERE p.id = ${id}::uuid`;
  if (plan === undefined) return null;
  const lines = await reader.$queryRaw<LineRow[]>`
    SELECT l.id, l.place, l.change, l.visit_id AS "visitId", l.visit_version AS "visitVersion", l.promised, l.was, l.site_id AS "siteId", l.on_day::text AS "onDay",
           l.start_time AS "startTime", l.end_time AS "endTime", l.travel_minutes AS "travelMinutes", l.work_minutes AS "workMinutes", l.people, l.work, l.reason, l.why,
           s.name AS "siteName", v.no AS "visitNo", a.at AS "acceptedAt", a.by AS "acceptedBy", made.id AS "madeVisitId", made.no AS "madeVisitNo"
      FROM plan_line l JOIN site s ON s.id = l.site_id LEFT JOIN visit v ON v.id = l.visit_id
      LEFT JOIN plan_acceptance a ON a.line_id = l.id LEFT JOIN visit made ON made.id = a.visit_id WHERE l.plan_id = ${id}::uuid ORDER BY l.place`;
  const leftOut = await reader.$queryRaw<(LeftOutColumns & { siteName: string })[]>`
    SELECT o.place, o.kind, o.work_id AS "workId", o.site_id AS "siteId", o.text, o.urgent, o.promised, o.reason, s.name AS "siteName"
      FROM plan_left_out o JOIN site s ON s.id = o.site_id WHERE o.plan_id = ${id}::uuid ORDER BY o.place`;
  const { replacesNo, replacedById, replacedByNo, ...columns } = plan;
  return {
    ...columns,
    replaces: replacesNo === null ? null : { no: replacesNo },
    replacedBy: replacedById === null || replacedByNo === null ? null : { id: replacedById, no: replacedByNo },
    lines: lines.map(lineOf),
    leftOut: leftOut.map(({ siteName, ...item }) => ({ ...item, site: { name: siteName } })),
  };
}

interface LineRow extends LineColumns {
  readonly id: string;
  readonly siteName: string;
  readonly visitNo: number | null;
  readonly acceptedAt: Date | null;
  readonly acceptedBy: string;
  readonly madeVisitId: string;
  readonly madeVisitNo: number;
}

function lineOf({ siteName, visitNo, acceptedAt, acceptedBy, madeVisitId, madeVisitNo, ...line }: LineRow): StoredLine {
  return {
    ...line,
    site: { name: siteName },
    visit: visitNo === null ? null : { no: visitNo },
    acceptance: acceptedAt === null ? null : { at: acceptedAt, by: acceptedBy, visitId: madeVisitId, visit: { no: madeVisitNo } },
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
