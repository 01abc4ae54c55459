import { once } from 'node:events';
import { createServer, type Server } from 'node:http';
import type { AddressInfo } from 'node:net';
import { afterEach, beforeEach, describe, expect, test } from '@jest/globals';
import { RoadTable } from './road-table.js';

/** Answers as the table service does: a minute and a kilometre for each degree between, in whichever direction; what is asked for is remembered. */
class RoadServer {
  readonly asked: URL[] = [];
  /** Longitudes that no road leads to */
  readonly holes = new Set<number>();
  answerWith: ((url: URL) => { status: number; body: string } | 'nothing') | null = null;
  private readonly server: Server = createServer(({ url = '/' }, response) => {
    const asked = new URL(url, 'http://table');
    this.asked.push(asked);
    const answer = this.answerWith === null ? { status: 200, body: JSON.stringify(this.table(asked)) } : this.answerWith(asked);
    if (answer !== 'nothing') response.writeHead(answer.status, { 'content-type': 'application/json' }).end(answer.body);
  });

  async start(): Promise<string> {
    this.server.listen(0, '127.0.0.1');
    await once(this.server, 'listening');
    return `http://127.0.0.1:${(this.server.address() as AddressInfo).port}`;
  }

  async stop(): Promise<void> {
    this.server.closeAllConnections();
    await new Promise((done) => this.server.close(done));
  }

  table({ pathname, searchParams }: URL) {
    const all = pathname
      .replace('/table/v1/driving/', '')
      .split(';')
      .map((each) => Number(each.split(',')[0]));
    const some = (name: string) =>
      searchParams
        .get(name)
        ?.split(';')
        .map((at) => all[Number(at)] ?? Number.NaN) ?? all;
    const cells = (of: (degrees: number) => number) =>
      some('sources').map((from) => some('destinations').map((to) => (this.holes.has(to) ? null : of(to > from ? to - from : 2 * (from - to)))));
    return { code: 'Ok', durations: cells((degrees) => degrees * 60), distances: cells((degrees) => degrees * 1000) };
  }
}

const placesAt = (...longitudes: number[]) => longitudes.map((longitude) => ({ id: String(longitude), latitude: 50, longitude }));
let now = 0;
let server: RoadServer;
let address: string;
let roads: RoadTable;
const clock = { now: () => new Date(now) };

beforeEach(async () => {
  server = new RoadServer();
  address = await server.start();
  roads = new RoadTable(address, clock);
});
afterEach(() => server.stop());

describe('a road table', () => {
  test('is asked in the order longitude, latitude, and read from row to column in minutes and km', async () => {
    const { ways, fault } = await roads.ask(placesAt(8, 10, 13));
    expect(server.asked.map(({ pathname }) => pathname)).toEqual(['/table/v1/driving/8.000000,50.000000;10.000000,50.000000;13.000000,50.000000']);
    expect(server.asked[0]?.searchParams.get('annotations')).toBe('duration,distance');
    expect([ways[1], ways[3], ways[5]]).toEqual([
      { minutes: 2, km: 2 },
      { minutes: 4, km: 4 },
      { minutes: 3, km: 3 },
    ]);
    expect(fault).toBeNull();
  });

  test('is asked in blocks of at most 100 places, and every way comes to its own place', async () => {
    const longitudes = Array.from({ length: 120 }, (_, at) => at);
    const { ways, fault } = await roads.ask(placesAt(...longitudes));
    expect(Math.max(...server.asked.map(({ pathname }) => pathname.split(';').length))).toBeLessThanOrEqual(100);
    for (const from of longitudes)
      for (const to of longitudes) if (from !== to) expect(ways[from * 120 + to]?.minutes).toBeCloseTo(to > from ? to - from : 2 * (from - to), 9);
    expect(fault).toBeNull();
  });

  test('is not asked again within a day for what it said', async () => {
    await roads.ask(placesAt(8, 10));
    now += 23 * 3_600_000;
    await roads.ask(placesAt(8, 10));
    expect(server.asked).toHaveLength(1);
    now += 2 * 3_600_000;
    await roads.ask(placesAt(8, 10));
    expect(server.asked).toHaveLength(2);
  });
});

describe('what a road table does not know is left open, and said', () => {
  test('a hole', async () => {
    server.holes.add(13);
    const { ways, fault } = await roads.ask(placesAt(8, 10, 13));
    expect([ways[1], ways[2], ways[6]]).toEqual([{ minutes: 2, km: 2 }, null, { minutes: 10, km: 10 }]);
    expect(fault).toBe('The road table knows no way between some places: 2 of 6 ways are estimated by distance');
  });

  test.each([
    ['a refusal', { status: 400, body: '{"code":"TooBig"}' }, 'The road table refused (TooBig)'],
    ['a fault', { status: 502, body: '<html>' }, 'The road table refused (HTTP 502)'],
    [
      'a table of another size',
      { status: 200, body: '{"code":"Ok","durations":[[0]],"distances":[[0]]}' },
      'The road table answered in a form that is not known',
    ],
  ])('%s', async (_, answer, said) => {
    server.answerWith = () => answer;
    const { ways, fault } = await roads.ask(placesAt(8, 10));
    expect(ways).toEqual([null, null, null, null]);
    expect(fault).toBe(`${said}: 2 of 2 ways are estimated by distance`);
  });

  test('times that are none', async () => {
    server.answerWith = () => ({ status: 200, body: '{"code":"Ok","durations":[[0,-5],["x",0]],"distances":[[0,1],[1,0]]}' });
    expect((await roads.ask(placesAt(8, 10))).ways).toEqual([null, null, null, null]);
  });

  test('one block of several: the others are kept', async () => {
    const longitudes = Array.from({ length: 120 }, (_, at) => at);
    const refuse = (url: URL) => url.pathname.includes('/0.000000,') && !url.searchParams.has('sources');
    server.answerWith = (url) => (refuse(url) ? { status: 400, body: '{"code":"NoSegment"}' } : { status: 200, body: JSON.stringify(server.table(url)) });
    const { ways, fault } = await roads.ask(placesAt(...longitudes));
    expect([ways[1], ways[60]?.minutes]).toEqual([null, 60]);
    expect(fault).toBe(`The road table refused (NoSegment): ${50 * 49} of ${120 * 119} ways are estimated by distance`);
  });

  test('one that does not answer is left alone for a minute, and then asked again', async () => {
    roads = new RoadTable(address, clock, 500);
    server.answerWith = () => 'nothing';
    expect((await roads.ask(placesAt(8, 10))).fault).toBe('The road table does not answer within 0.5 s: 2 of 2 ways are estimated by distance');
    expect((await roads.ask(placesAt(8, 11))).fault).toBe('The road table does not answer within 0.5 s: 2 of 2 ways are estimated by distance');
    expect(server.asked).toHaveLength(1);
    expect(roads.met).toEqual({ askedAt: new Date(now), answeredAt: null, said: 'The road table does not answer within 0.5 s' });
    now += 61_000;
    server.answerWith = null;
    expect((await roads.ask(placesAt(8, 10))).fault).toBeNull();
    expect(roads.met).toEqual({ askedAt: new Date(now), answeredAt: new Date(now), said: null });
  });

  test('nobody at its address', async () => {
    expect((await new RoadTable('http://127.0.0.1:1', clock).ask(placesAt(8, 10))).fault).toMatch(/^The road table does not answer at its address/);
  });
});
