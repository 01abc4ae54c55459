import type { INestApplicationContext } from '@nestjs/common';
import { type Caller, Database, newId } from '../src/app/index.js';
import { Ask } from '../src/jobs/breakdown-ask.js';
import { ChangeJobs } from '../src/jobs/change-jobs.js';
import { RequestNotes } from '../src/jobs/request-notes.js';
import { PlanVisit } from '../src/visits/plan-visit.js';
import { PromiseVisit } from '../src/visits/promise-visit.js';
import { ASKED, COMING_JOBS, COMING_VISITS } from './data/coming-work.js';
import { MANAGER } from './data/people.js';
import { DAY_MS, dayText, HOUR_MS, weekday } from './generate/period.js';
import { positionKey } from './generate/positions.js';
import { idOf, type ScenarioIds } from './insert-registry.js';
import { loadSecondSheet } from './load-second-sheet.js';
import type { Scenario } from './types.js';

/** Work that lies ahead, entered as people enter it: visits made from the due list, jobs that wait, and what clients have asked for. */
export async function loadComingWork(app: INestApplicationContext, scenario: Scenario, ids: ScenarioIds): Promise<void> {
  const find = <T>(type: abstract new (...args: never[]) => T): T => app.get<T>(type as never, { strict: false });
  const callers = callersOf(scenario, ids);
  const manager = idOf(callers, MANAGER);
  const keyOf = ({ id: callerId }: Caller) => ({ callerId, key: undefined, request: null });
  const { prisma } = find(Database);
  const until = scenario.until.getTime();
  const duesOf = async (skidKeys: readonly string[], count: number): Promise<string[]> => {
    const dues = await prisma.due.findMany({
      where: { skidNo: { in: skidKeys.map((key) => idOf(ids.skids, key).no) }, bestOn: { not: null } },
      orderBy: [{ bestOn: 'asc' }, { task: 'asc' }, { positionId: 'asc' }],
      take: count,
      select: { id: true },
    });
    return dues.map(({ id }) => id);
  };

  for (const { siteKey, inDays, startTime, people, tasks, isPromised, note, noteToClient } of COMING_VISITS) {
    const skidKeys = scenario.skids.filter((skid) => skid.siteKey === siteKey).map(({ key }) => key);
    const dueIds = await duesOf(skidKeys, tasks);
    if (dueIds.length === 0) continue;
    const personIds = people.map((key) => idOf(ids.people, key));
    const asked = { siteId: idOf(ids.sites, siteKey).id, onDay: workday(until + inDays * DAY_MS), startTime, personIds, dueIds, note, noteToClient };
    const { id } = await find(PlanVisit).make(manager, keyOf(manager), asked);
    if (isPromised) await find(PromiseVisit).promise(manager, id);
  }

  const jobs = find(ChangeJobs);
  for (const { skidKey, tasks, request, waitsFor } of COMING_JOBS) {
    const skid = ids.skids.get(skidKey);
    const dueIds = skid === undefined ? [] : await duesOf([skidKey], tasks);
    if (skid === undefined || dueIds.length === 0) continue;
    const id = await jobs.make(manager, keyOf(manager), { skidId: skid.id, kind: 'service', request, dueIds, tasks: [] });
    if (waitsFor !== '') await jobs.move(manager, id, { to: 'waiting', note: waitsFor });
  }

  for (const { by, skidKey, position, title, request, severity, hoursAgo, answer } of ASKED) {
    const [caller, skid] = [callers.get(by), ids.skids.get(skidKey)];
    if (caller === undefined || skid === undefined) continue;
    const where = position === null ? {} : { positionId: idOf(ids.positions, positionKey(skidKey, position)) };
    const noticedAt = new Date(until - hoursAgo * HOUR_MS).toISOString();
    const { jobId } = await find(Ask).for(caller, keyOf(caller), { skidId: skid.id, title, request, noticedAt, ...where }, severity);
    if (answer !== '') await find(RequestNotes).add(manager, keyOf(manager), jobId, answer);
  }

  await loadSecondSheet(app, scenario, callers, newId());
}

/** The day, or the Monday after it. */
function workday(ms: number): string {
  const day = weekday(ms, 0);
  return dayText(ms + (day === 6 ? 2 : day === 0 ? 1 : 0) * DAY_MS);
}

function callersOf({ people, sites }: Scenario, ids: ScenarioIds): ReadonlyMap<string, Caller> {
  const clientIdOf = (clientKey: string) => sites.flatMap((site) => (site.clientKey === clientKey ? [idOf(ids.sites, site.key).clientId] : []))[0] ?? null;
  return new Map(
    people.map(({ key, name, role, clientKey, siteKey, mayEnterReadings }) => [
      key,
      {
        id: idOf(ids.people, key),
        name,
        role,
        clientId: clientKey === null ? null : clientIdOf(clientKey),
        siteId: siteKey === null ? null : idOf(ids.sites, siteKey).id,
        mayEnterReadings,
      },
    ]),
  );
}
