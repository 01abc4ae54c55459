import { randomBytes } from 'node:crypto';
import type { INestApplicationContext } from '@nestjs/common';
import { Clock, Database, Recompute } from '../src/app/index.js';
import { hashPassword } from '../src/people/index.js';
import { Ledger, RecomputeReorder } from '../src/store/index.js';
import { copyReadings } from './copy-readings.js';
import { insertBreakdowns } from './insert-breakdowns.js';
import { insertChemicals } from './insert-chemicals.js';
import { insertFacts } from './insert-facts.js';
import { insertProofs } from './insert-proofs.js';
import { idOf, insertRegistry } from './insert-registry.js';
import { insertRules } from './insert-rules.js';
import { insertStore } from './insert-store.js';
import { insertSupply } from './insert-supply.js';
import { insertVisits } from './insert-visits.js';
import { loadComingWork } from './load-coming-work.js';
import { loadPlanning } from './load-planning.js';
import { buildScenario } from './scenario.js';
import type { Scenario, ScenarioPerson } from './types.js';

const HOUR_MS = 3_600_000;

/** Loads the demo scenario into an empty database, draws its conclusions, and prints the passwords of its people. */
export async function loadDemo({ app, say }: { app: INestApplicationContext; say: (line: string) => void }): Promise<void> {
  const now = app.get(Clock).now();
  const until = new Date(Math.floor(now.getTime() / HOUR_MS) * HOUR_MS);
  await loadScenario(app, buildScenario({ until }), say);
}

/** Any scenario: the demo, or a larger fleet for measurements. */
export async function loadScenario(app: INestApplicationContext, scenario: Scenario, say: (line: string) => void): Promise<void> {
  const startedAt = performance.now();
  const database = app.get(Database);
  say(`Loading the demo fleet of ${scenario.company}: every company, person and number in it is invented`);
  const passwords = await Promise.all(scenario.people.map(async (person) => ({ person, ...(await newPassword()) })));
  const ids = await insertRegistry(database.prisma, scenario, new Map(passwords.map(({ person, hash }) => [person.key, hash])));
  await insertRules(database.prisma, scenario, ids.items);
  await insertFacts(database.prisma, scenario, ids);
  await insertChemicals(database.prisma, scenario, ids);
  await insertProofs(database.prisma, scenario, ids);
  await insertStore(database, app.get(Ledger, { strict: false }), scenario, ids);
  await insertSupply(database.prisma, scenario, ids);
  const visitIds = await insertVisits(database.prisma, scenario, ids);
  await insertBreakdowns(database.prisma, scenario, ids, visitIds);
  await database.prisma.noticeChoice.createMany({
    data: scenario.work.noticeChoices.map(({ personKey, ...choice }) => ({ ...choice, personId: idOf(ids.people, personKey) })),
  });
  const counts = await copyReadings(database, scenario, ids);
  const recompute = app.get(Recompute);
  for (const skid of ids.skids.values()) await recompute.now(skid.id);
  await loadPlanning(app, scenario, ids);
  await loadComingWork(app, scenario, ids);
  await app.get(RecomputeReorder, { strict: false }).all();
  const seconds = ((performance.now() - startedAt) / 1000).toFixed(0);
  say(`Loaded ${ids.skids.size} skids and shared units, ${counts.cycles} cycles and ${counts.samples} samples in ${seconds} s`);
  for (const { person, password } of passwords) say(`  ${roleOf(person).padEnd(12)} ${person.email.padEnd(32)} password ${password}`);
}

async function newPassword(): Promise<{ password: string; hash: string }> {
  const password = randomBytes(9).toString('base64url');
  return { password, hash: await hashPassword(password) };
}

function roleOf({ role, mayEnterReadings }: ScenarioPerson): string {
  return role === 'client' && mayEnterReadings ? 'operator' : role;
}
