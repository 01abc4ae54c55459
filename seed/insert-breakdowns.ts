import { newId } from '../src/app/index.js';
import type { PrismaClient } from '../src/generated/prisma/client.js';
import { idOf, type ScenarioIds } from './insert-registry.js';
import { visitKey } from './insert-visits.js';
import type { Scenario } from './types.js';

/** Breakdowns that are over. One that a visit mended belongs to the visit of that day. */
export async function insertBreakdowns(prisma: PrismaClient, scenario: Scenario, ids: ScenarioIds, visitIds: ReadonlyMap<string, string>): Promise<void> {
  const siteOfSkid = new Map(scenario.skids.map(({ key, siteKey }) => [key, siteKey]));
  for (const breakdown of scenario.work.breakdowns) {
    const { skidKey, positionKey, title, request, reportedBy, takenBy, noticedAt, restoredAt, endedBy, telephone, ...found } = breakdown;
    const { id: skidId, clientId, siteId } = idOf(ids.skids, skidKey);
    const positionId = positionKey === null ? null : idOf(ids.positions, positionKey);
    const byTelephone = endedBy === 'telephone';
    const visitId = byTelephone ? null : (visitIds.get(visitKey(idOf(siteOfSkid, skidKey), restoredAt.toISOString().slice(0, 10))) ?? null);
    const [reporter, taker] = [personOf(ids, reportedBy), personOf(ids, takenBy)];
    const id = newId();
    const takenAt = new Date(noticedAt.getTime() + 8 * 60_000);
    await prisma.job.create({
      data: {
        id,
        clientId,
        siteId,
        skidId,
        kind: 'breakdown',
        title,
        request,
        state: 'finished',
        visitId,
        createdAt: noticedAt,
        createdById: reporter.id,
        createdBy: reporter.name,
        finishedAt: restoredAt,
        finishedBy: taker.name,
        tasks: {
          create: {
            clientId,
            place: 1,
            task: title,
            kind: 'repair',
            positionId,
            outcome: byTelephone ? 'not done' : 'done',
            doneAt: byTelephone ? null : restoredAt,
          },
        },
        breakdown: {
          create: {
            ...found,
            clientId,
            skidId,
            positionId,
            noticedAt,
            restoredAt,
            endedBy,
            telephone: byTelephone ? `${minuteOf(restoredAt)} UTC, ${taker.name}: ${telephone}` : '',
            takenById: taker.id,
            takenBy: taker.name,
            takenAt,
          },
        },
        changes: {
          create: [
            {
              clientId,
              at: takenAt,
              byId: taker.id,
              by: taker.name,
              what: 'taken',
              to: taker.name,
              toClient: true,
            },
            ...(byTelephone
              ? [
                  {
                    clientId,
                    at: restoredAt,
                    byId: taker.id,
                    by: taker.name,
                    what: 'telephone',
                    note: telephone,
                    toClient: true,
                  },
                ]
              : []),
            {
              clientId,
              at: restoredAt,
              byId: taker.id,
              by: taker.name,
              what: 'state',
              from: 'open',
              to: 'finished',
              toClient: true,
              note: byTelephone ? 'Ended by telephone' : found.remedy,
            },
          ],
        },
      },
    });
  }
}

const personOf = (ids: ScenarioIds, key: string) => ({ id: idOf(ids.people, key), name: idOf(ids.names, key) });
const minuteOf = (at: Date): string => at.toISOString().slice(0, 16).replace('T', ' ');
