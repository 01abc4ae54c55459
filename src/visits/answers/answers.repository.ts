import type { Reader } from '../../app/index.js';
import { dateOf } from '../../registry/index.js';

export interface ProposalRow {
  readonly id: string;
  readonly visitId: string;
  readonly clientId: string;
  readonly clientName: string;
  readonly siteId: string;
  readonly siteName: string;
  readonly timeZone: string;
  readonly onDay: string;
  readonly startTime: string;
  readonly minutes: number;
  readonly note: string;
  readonly work: readonly { readonly skidName: string; readonly title: string }[];
  readonly proposedAt: Date;
  readonly proposedBy: string;
  readonly answer: 'confirmed' | 'declined' | null;
  readonly reason: string;
  readonly wishedDays: readonly string[];
  readonly answeredAt: Date | null;
  readonly answeredBy: string | null;
  readonly closedAt: Date | null;
}

/** The statement names no client: the database shows the caller their own rows. */
const PROPOSALS = `
  SELECT a.id, a.visit_id AS "visitId", a.client_id AS "clientId", client.name AS "clientName", a.site_id AS "siteId", site.name AS "siteName", site.time_zone AS "timeZone",
         to_char(a.on_day, 'YYYY-MM-DD') AS "onDay", a.start_time AS "startTime", a.minutes, a.note, a.proposed_at AS "proposedAt", a.proposed_by AS "proposedBy",
         a.answer, a.reason, coalesce(a.wished_days, '{}')::text[] AS "wishedDays", a.answered_at AS "answeredAt", a.answered_by AS "answeredBy", a.closed_at AS "closedAt",
         coalesce((SELECT jsonb_agg(jsonb_build_object('skidName', s.name, 'title', j.title) ORDER BY s.name, j.no) FROM job j JOIN skid s ON s.id = j.skid_id
                    WHERE j.visit_id = a.visit_id), '[]') AS work
    FROM visit_answer a JOIN site ON site.id = a.site_id JOIN client ON client.id = a.client_id`;
const MOST = 200;

/** What is asked now, of days to come: of all sites or of one. */
export const openProposals = (reader: Reader, now: Date, siteId: string | null): Promise<ProposalRow[]> =>
  reader.$queryRawUnsafe<ProposalRow[]>(
    `${PROPOSALS} WHERE a.closed_at IS NULL AND a.on_day >= ($1::timestamptz AT TIME ZONE site.time_zone)::date AND ($2::uuid IS NULL OR a.site_id = $2)
      ORDER BY a.on_day, a.start_time, a.id LIMIT ${MOST}`,
    now,
    siteId,
  );

export const findProposal = async (reader: Reader, id: string): Promise<ProposalRow | null> =>
  (await reader.$queryRawUnsafe<ProposalRow[]>(`${PROPOSALS} WHERE a.id = $1::uuid`, id))[0] ?? null;

/** Everything that was proposed of a visit, the latest first. */
export const proposalsOf = (reader: Reader, visitId: string): Promise<ProposalRow[]> =>
  reader.$queryRawUnsafe<ProposalRow[]>(`${PROPOSALS} WHERE a.visit_id = $1::uuid ORDER BY a.proposed_at DESC, a.id DESC LIMIT ${MOST}`, visitId);

export interface NewProposal {
  readonly visitId: string;
  readonly clientId: string;
  readonly siteId: string;
  readonly onDay: string;
  readonly startTime: string;
  readonly minutes: number;
  readonly note: string;
  readonly proposedAt: Date;
  readonly proposedBy: string;
}

/** Takes the place of what was proposed of the visit before. */
export async function addProposal(tx: Reader, { onDay, ...proposal }: NewProposal): Promise<string> {
  await tx.visitAnswer.updateMany({ where: { visitId: proposal.visitId, closedAt: null }, data: { closedAt: proposal.proposedAt } });
  return (await tx.visitAnswer.create({ data: { ...proposal, onDay: dateOf(onDay) }, select: { id: true } })).id;
}

export interface Answer {
  readonly answer: 'confirmed' | 'declined';
  readonly reason: string;
  readonly wishedDays: readonly string[];
  readonly answeredAt: Date;
  readonly answeredBy: string;
}

export async function writeAnswer(tx: Reader, id: string, { wishedDays, ...answer }: Answer): Promise<void> {
  await tx.visitAnswer.update({ where: { id }, data: { ...answer, wishedDays: wishedDays.map(dateOf) } });
}
