import { afterAll, beforeAll, describe, expect, test } from '@jest/globals';
import type { NestFastifyApplication } from '@nestjs/platform-fastify';
import { median, sum } from 'd3-array';
import { Database } from '../../src/app/index.js';
import { daysBetween } from '../../src/shared/day.js';
import { haveOpenData, readOpenData } from '../open-data/open-data.js';
import type { Api } from '../support/api.js';
import { makeSkids, type SmallSkid, signInAs } from '../support/small-fleet.js';
import { startTestApp } from '../support/test-app.js';

const ORDERS = 'maintenance_records/pump_work_orders.csv';
const present = haveOpenData(ORDERS);
const withOpenData = present ? describe : describe.skip;
const ALL_YEARS = 'from=2012-10-11&to=2020-10-18';

let app: NestFastifyApplication;
let manager: Api;
let skid: SmallSkid;
const positions: Record<string, string> = {};

/** What the words of an order say of a failure, and where. The reading is ours: the orders name neither severity nor mode. */
function failureIn(description: string): { position: string; severity: string; failureMode: string; mechanism?: string } | null {
  if (/seal/i.test(description)) return { position: 'Seal', severity: 'can wait', failureMode: 'external leakage', mechanism: '1.1' };
  if (/^replace pump/i.test(description)) return { position: 'Pump', severity: 'no water', failureMode: 'breakdown' };
  if (/electric motor/i.test(description)) return { position: 'Motor', severity: 'no water', failureMode: 'breakdown' };
  if (/not pumping/i.test(description)) return { position: 'Pump', severity: 'no water', failureMode: 'low output' };
  if (/casing holed/i.test(description)) return { position: 'Pump', severity: 'less water', failureMode: 'structural deficiency' };
  return null;
}

const rows = () =>
  readOpenData(ORDERS).map(({ date = '', description = '', type = '' }) => {
    const found = failureIn(description);
    const { position = 'Pump', ...failure } = found ?? {};
    const kind = found !== null ? 'breakdown' : type === 'Preventative' ? 'service' : 'follow-up';
    return { at: date, title: description, kind, positionId: positions[position], by: 'Contractor', ...(found !== null && { failure }) };
  });

beforeAll(async () => {
  if (!present) return;
  app = await startTestApp();
  manager = await signInAs(app, 'manager');
  [skid] = (await makeSkids(app, 'Transfer station', 1, 'Australia/Perth')) as [SmallSkid];
  const { prisma } = app.get(Database);
  const { id: skidId, clientId } = skid;
  await prisma.skid.update({ where: { id: skidId }, data: { commissionedOn: new Date('2012-10-11') } });
  for (const [name, kind] of [
    ['Pump', 'feed pump'],
    ['Seal', 'seal'],
    ['Motor', 'motor'],
  ] as const) {
    positions[name] = (
      await prisma.position.create({ data: { skidId, clientId, kind, name, parentId: name === 'Pump' ? null : (positions.Pump ?? null) } })
    ).id;
  }
});
afterAll(() => app?.close());

const indicators = async (query: string) => {
  const { body } = await manager.get(`/api/indicators?skidId=${skid.id}&${query}`).expect(200);
  return (code: string) => body.indicators.find((indicator: { code: string }) => indicator.code === code);
};
const meanDays = async (query: string) => ((await indicators(`${ALL_YEARS}&${query}`))('time-between-failures').value ?? Number.NaN) / 24;

interface Entry {
  readonly at: string;
  readonly what: string;
  readonly positionName: string;
}

const serviceLog = async (find: string): Promise<Entry[]> =>
  (await manager.get(`/api/skids/${skid.id}/service-log?limit=200&find=${encodeURIComponent(find)}`).expect(200)).body.items.reverse();

/**
 * 27 work orders of a water-treatment transfer pump, 2012-10-11 to 2020-10-19 (woodsnooja/ds-reliability, CC BY 3.0; course of the University of Western
 * Australia by Bikaun and Hodkiewicz). Statistics: computed apart from this code, and, for the two pump replacements, the course's own.
 */
withOpenData('27 real work orders of a pump', () => {
  test('are checked in a dry run, loaded, and loaded once', async () => {
    const send = async (dryRun: boolean) => (await manager.post('/api/jobs/history', { skidId: skid.id, dryRun, rows: rows() }).expect(200)).body;
    expect(await send(true)).toEqual({ dryRun: true, rows: 27, made: 27, known: 0, problems: [] });
    expect(await send(false)).toMatchObject({ made: 27, known: 0 });
    expect(await send(false)).toMatchObject({ made: 0, known: 27 });
    const { body } = await manager.get(`/api/jobs?skidId=${skid.id}&limit=200`).expect(200);
    expect(body.total).toBe(27);
    expect(body.items.every(({ state, finishedBy }: { state: string; finishedBy: string }) => state === 'finished' && finishedBy === 'Contractor')).toBe(true);
    expect(await serviceLog('')).toHaveLength(27);
  });

  test('keep their days at the site, from the first to the last 2,930 days apart', async () => {
    const day = (at = '') => new Intl.DateTimeFormat('sv-SE', { timeZone: 'Australia/Perth' }).format(new Date(at));
    const days = (await serviceLog('')).map(({ at }) => day(at));
    expect(days).toEqual(readOpenData(ORDERS).map(({ date }) => date));
    expect(daysBetween(days[0] ?? '', days.at(-1) ?? '')).toBe(2930);
  });

  test('hold four seal events, three of them in the last five months', async () => {
    const { body } = await manager.get(`/api/breakdowns?skidId=${skid.id}&find=seal`).expect(200);
    expect(body.items.map(({ noticedAt, mechanismInWords }: Record<string, string>) => [noticedAt?.slice(0, 10), mechanismInWords])).toEqual([
      ['2020-10-19', 'Leakage (1.1)'],
      ['2020-08-27', 'Leakage (1.1)'],
      ['2020-06-11', 'Leakage (1.1)'],
      ['2014-06-24', 'Leakage (1.1)'],
    ]);
  });

  test('hold nine electrical services, 80 to 355 days apart, 271.5 in the middle, though their label says 78 weeks', async () => {
    const services = await serviceLog('Elec Svce');
    const days = services.map(({ at }) => at.slice(0, 10));
    const gaps = days.slice(1).map((day, index) => daysBetween(days[index] ?? '', day));
    expect([days.length, Math.min(...gaps), Math.max(...gaps), median(gaps)]).toEqual([9, 80, 355, 271.5]);
    expect(services.filter(({ what }) => what.startsWith('78W'))).toHaveLength(8);
    expect(Math.max(...gaps)).toBeLessThan(78 * 7);
  });

  test('have a mean time between failures that depends on what counts as one', async () => {
    // The course: two pump replacements in 2,930 days
    expect(await meanDays(`count=stops&positionId=${positions.Pump}&failureMode=breakdown`)).toBeCloseTo(1465, 6);
    // Every stop: two pumps, the motor, not pumping
    expect(await meanDays('count=stops')).toBeCloseTo(2930 / 4, 6);
    // Leaks and the holed casing too; the leak of the last day lies behind these 2,930 days
    expect(await meanDays('count=all')).toBeCloseTo(2930 / 8, 6);
    expect(await meanDays('count=all&mechanism=1.1')).toBeCloseTo(2930 / 3, 6);
    const few = (await indicators(`${ALL_YEARS}&positionId=${positions.Pump}&failureMode=breakdown`))('time-between-failures');
    expect(few.tooLittle).toMatch(/^2 failures alone/);
  });

  test('say nothing of down time, and none is made up', async () => {
    const of = await indicators(ALL_YEARS);
    expect(of('availability').remarks).toEqual(['4 without water whose down time is not known: not in this figure.']);
    expect(of('time-to-restoration')).toMatchObject({ value: null, tooLittle: expect.any(String) });
    expect(of('preventive-jobs').numerator.value).toBe(readOpenData(ORDERS).filter(({ type }) => type === 'Preventative').length);
  });

  test('cost 17,040 for labour and 32,660 for material, which is not kept', async () => {
    const orders = readOpenData(ORDERS);
    expect([sum(orders, (row) => Number(row.labour_cost)), sum(orders, (row) => Number(row.material_cost))]).toEqual([17_040, 32_660]);
    const [first] = rows();
    const { body } = await manager.post('/api/jobs/history', { skidId: skid.id, rows: [{ ...first, labourCost: 100 }] }).expect(400);
    expect(body.errors[0].pointer).toBe('#/rows/0/labourCost');
  });
});
