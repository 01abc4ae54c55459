import { readFileSync } from 'node:fs';
import { afterAll, beforeAll, describe, expect, test } from '@jest/globals';
import type { NestFastifyApplication } from '@nestjs/platform-fastify';
import { Database, Recompute } from '../../src/app/index.js';
import { haveOpenData } from '../open-data/open-data.js';
import type { Api } from '../support/api.js';
import { makeSkids, type SmallSkid, signInAs } from '../support/small-fleet.js';
import { startTestApp } from '../support/test-app.js';

const BIOREACTOR = 'mbr_minute/minute.csv.gz';
const DRINKING_WATER = 'drinkwater_site_10min/online_10min.csv';
const present = haveOpenData(BIOREACTOR, DRINKING_WATER);
const withOpenData = present ? describe : describe.skip;

let app: NestFastifyApplication;
let technician: Api;
let skids: SmallSkid[];

beforeAll(async () => {
  if (!present) return;
  app = await startTestApp();
  technician = await signInAs(app, 'technician');
  skids = await makeSkids(app, 'Open data', 3, 'Etc/UTC');
  const { prisma } = app.get(Database);
  // The membrane area is not published: 1 m2 is invented, so that flux is flow.
  await prisma.skid.updateMany({ data: { tmpFrom: 'measured', ratedFlowM3h: null, cartridgeReferenceFlowM3h: null } });
  await prisma.skidArea.updateMany({ data: { areaM2: 1 } });
});
afterAll(() => app?.close());

async function load(skid: SmallSkid, profile: string, file: string) {
  const definition = JSON.parse(readFileSync(`test/profiles/${profile}.json`, 'utf8')) as object;
  const made = await technician.post('/api/log-profiles', { skidId: skid.id, name: profile, kind: 'samples', definition }).expect(201);
  const send = () =>
    technician
      .call('post', `/api/skids/${skid.id}/loads?kind=samples&profileId=${made.body.id}`)
      .attach('file', `../shared/data/${file}`)
      .expect(200)
      .then(({ body }) => body);
  return { first: await send(), again: await send() };
}

async function derived({ no }: SmallSkid): Promise<{ runs: number; hours: number }> {
  const { rows } = await app
    .get(Database)
    .pool.query<{ runs: number; hours: number }>(
      'SELECT count(*)::int AS runs, sum(filtration_minutes) / 60 AS hours FROM cycle WHERE skid_no = $1 AND derived',
      [no],
    );
  return rows[0] ?? { runs: 0, hours: 0 };
}

// `mines_fault` of the R package rachwhatsit/mowater_pkg (MIT): two membrane tanks of a wastewater plant, one row a minute for a month.
withOpenData('the log of a membrane bioreactor', () => {
  // Rows: wc -l of the unpacked file less the header. Hours and runs: Python, without this code: rows of mode 1 in a row, steps of up to 5 min held, cut at longer ones.
  test.each([
    { tank: 1, runs: 3537, hours: 534.617 },
    { tank: 2, runs: 3509, hours: 529.217 },
  ])('of tank $tank is read whole, once, and permeates for as long as its mode says', async ({ tank, runs, hours }) => {
    const skid = skids[tank - 1] as SmallSkid;
    const { first, again } = await load(skid, `membrane-bioreactor-tank-${tank}`, BIOREACTOR);
    expect(first).toMatchObject({ rows: 43_552, differing: 0 });
    expect(again).toMatchObject({ kept: 0, known: first.kept });
    const found = await derived(skid);
    expect(found.runs).toBe(runs);
    expect(found.hours).toBeCloseTo(hours, 2);
  });

  test('gives a daily permeability after temperature correction that follows the published flow over pressure', async () => {
    const skid = skids[0] as SmallSkid;
    await app.get(Recompute).now(skid.id);
    const { body } = await technician.get(`/api/skids/${skid.id}/trends/permeability`).expect(200);
    expect(body.firstDay).toBe('2010-04-10');
    expect(body.values.length).toBeGreaterThan(28);
    expect(body.leftOut.length).toBeGreaterThan(0);
  });
});

// KWB-R/aquanes.report (MIT), siteData_10min_list: a small drinking-water site, one row each ten minutes for four months.
withOpenData('the log of a drinking-water site', () => {
  test('is read whole, once, and its two fouling run-ups end where they did', async () => {
    const skid = skids[2] as SmallSkid;
    const { first, again } = await load(skid, 'drinking-water-site', DRINKING_WATER);
    expect(first.rows).toBe(16_912);
    expect(again).toMatchObject({ kept: 0, known: first.kept });
    // Python: steps of up to 15 min after a row with in_operation = 1, summed
    expect((await derived(skid)).hours / 2775.83).toBeCloseTo(1, 2);
    // The derived series of the data set: R = p1 / (flow / 270 L/h) climbs above 1 until 2017-04-17 and above 2 until 2017-07-09, and drops within two days
    const { rows } = await app.get(Database).pool.query<{ day: string; resistance: number }>(
      `SELECT to_char(p.at AT TIME ZONE 'UTC', 'YYYY-MM-DD') AS day, percentile_cont(0.5) WITHIN GROUP (ORDER BY (p.value / 100) / (f.value / 0.27)) AS resistance
         FROM sample p JOIN signal ps ON ps.id = p.signal_id AND ps.code = 'feed_pressure' AND ps.skid_id = $1
         JOIN signal fs ON fs.code = 'filtrate_flow' AND fs.skid_id = $1 JOIN sample f ON f.signal_id = fs.id AND f.at = p.at AND f.value > 0.1
        GROUP BY 1 ORDER BY 1`,
      [skid.id],
    );
    const on = (day: string) => rows.find((row) => row.day === day)?.resistance ?? Number.NaN;
    const after = (day: string) => rows.filter((row) => row.day > day).slice(1, 3);
    expect(on('2017-04-17')).toBeGreaterThan(1);
    expect(after('2017-04-17').every(({ resistance }) => resistance < 0.5)).toBe(true);
    expect(on('2017-07-09')).toBeGreaterThan(2);
    expect(after('2017-07-09').every(({ resistance }) => resistance < 0.7)).toBe(true);
  });
});
