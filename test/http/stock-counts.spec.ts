import { randomUUID } from 'node:crypto';
import { afterAll, beforeAll, describe, expect, test } from '@jest/globals';
import type { NestFastifyApplication } from '@nestjs/platform-fastify';
import { Clock, Database } from '../../src/app/index.js';
import type { Api } from '../support/api.js';
import { type Made, make, pointersOf } from '../support/records.js';
import { signInAs } from '../support/small-fleet.js';
import { startTestApp } from '../support/test-app.js';
import { signInByName } from '../support/work.js';

let app: NestFastifyApplication;
let storekeeper: Api;
let ada: { api: Api; id: string };
let van: Made;
let items: Made[];
let now = new Date('2026-11-25T09:00:00Z');

beforeAll(async () => {
  app = await startTestApp();
  app.get(Clock).now = () => now;
  storekeeper = await signInAs(app, 'storekeeper');
  ada = await signInByName(app, 'Ada');
  van = await make(storekeeper, '/api/places', { name: 'Van of Ada', kind: 'van', personId: ada.id });
  items = [];
  for (const code of ['A', 'B', 'C']) items.push(await make(storekeeper, '/api/items', { code, name: `Item ${code}`, kind: 'seal' }));
  await post('receive', '2026-11-24T10:00:00Z', [
    { itemId: id(0), quantity: '10', lot: 'L1', toPlaceId: van.id },
    { itemId: id(1), quantity: '5', toPlaceId: van.id },
    { itemId: id(2), quantity: '2', toPlaceId: van.id },
  ]);
});
afterAll(() => app?.close());

const id = (at: number) => items[at]?.id ?? '';
const post = (kind: string, at: string, moves: object[], more: object = {}) =>
  storekeeper.post('/api/stock/posts', { id: randomUUID(), kind, at, moves, ...more }).expect(201);
interface Line {
  readonly id: string;
  readonly no: number;
  readonly page: number;
  readonly itemCode: string;
  readonly standing: string;
  readonly counted: string | null;
  readonly book: string | null;
}
interface Count extends Made {
  readonly lines: Line[];
}
const start = async (more: object = {}): Promise<Count> => (await ada.api.post('/api/counts', { placeId: van.id, ...more }).expect(201)).body;
const look = (count: Count, looks: object[]) => ada.api.post(`/api/counts/${count.id}/looks`, { looks });
const line = (count: Count, at: number) => count.lines[at]?.id ?? '';
const told = ({ lines }: Count) => lines.map(({ no, itemCode, standing }) => `${no} ${itemCode} ${standing}`);
const close = (count: Count, more: object = {}) => ada.api.post(`/api/counts/${count.id}/close`, { id: randomUUID(), ...more });
const stock = async () =>
  (await ada.api.get('/api/stock').expect(200)).body.items.map((each: Record<string, string>) => `${each.onHand} ${each.itemCode} ${each.lot}`);
const faults = () =>
  app
    .get(Database)
    .pool.query('SELECT * FROM stock_fault')
    .then(({ rows }) => rows);

describe('a count', () => {
  let count: Count;

  test('lists page by page what lies there, without saying how much', async () => {
    count = await start({ linesOnPage: 2 });
    expect(count).toMatchObject({ placeName: 'Van of Ada', state: 'open', blind: true, pages: 2, startedBy: 'Ada' });
    expect(told(count)).toEqual(['1 A open', '2 B open', '3 C open']);
    expect(count.lines.every(({ book, counted }) => book === null && counted === null)).toBe(true);
    expect(JSON.stringify(count)).not.toContain('onHand');
    expect(told((await ada.api.get(`/api/counts/${count.id}?page=2`).expect(200)).body)).toEqual(['3 C open']);
  });

  test('is one at a time for a place, and a technician counts their own van', async () => {
    expect((await ada.api.post('/api/counts', { placeId: van.id }).expect(409)).body.title).toContain('being counted already');
    const tom = await signInByName(app, 'Tom');
    await tom.api.post(`/api/counts/${count.id}/drop`, {}).expect(400);
    expect(pointersOf((await storekeeper.post('/api/counts', { placeId: randomUUID() }).expect(400)).body)).toEqual(['#/placeId']);
  });

  test('takes what agrees, and asks for another look at what is off', async () => {
    const { body } = await look(count, [
      { lineId: line(count, 0), counted: '10' },
      { lineId: line(count, 1), counted: '4' },
    ]).expect(200);
    expect(told(body)).toEqual(['1 A agrees', '2 B off', '3 C open']);
    expect(told((await ada.api.get(`/api/counts/${count.id}?toDo=true`).expect(200)).body)).toEqual(['2 B off', '3 C open']);
    const refused = await close(count).expect(409);
    expect(refused.body.title).toContain('line 2, B, is off; line 3, C, was not looked at');
  });

  test('reckons with what is moved while it goes on, also where that is entered later', async () => {
    now = new Date('2026-11-25T10:00:00Z');
    // Two of B go out between the looks: 4 were seen, 2 are seen now, and one is missing all the same.
    await post('scrap', '2026-11-25T09:30:00Z', [{ itemId: id(1), quantity: '2', fromPlaceId: van.id }], { note: 'torn' });
    const { body } = await look(count, [{ lineId: line(count, 1), counted: '2' }]).expect(200);
    expect(told(body)).toEqual(['1 A agrees', '2 B settled', '3 C open']);
    // One of A was taken before it was counted, and nobody had entered it: the line is off after all.
    await post('scrap', '2026-11-25T08:00:00Z', [{ itemId: id(0), quantity: '1', fromPlaceId: van.id }], { note: 'late' });
    expect(told((await ada.api.get(`/api/counts/${count.id}`)).body)).toEqual(['1 A off', '2 B settled', '3 C open']);
    expect(told((await look(count, [{ lineId: line(count, 0), counted: '9' }])).body)[0]).toBe('1 A agrees');
  });

  test('takes what is not on the list, with two looks as well', async () => {
    const found = { itemId: id(2), lot: 'X9', counted: '3' };
    await look(count, [found, { lineId: line(count, 2), counted: '2' }]).expect(200);
    expect(told((await look(count, [found]).expect(200)).body)).toEqual(['1 A agrees', '2 B settled', '3 C agrees', '4 C settled']);
  });

  test('says which looks cannot be, and enters none', async () => {
    const looks = [{ lineId: randomUUID(), counted: '1' }, { itemId: randomUUID(), counted: '1' }, { counted: '1' }];
    expect(pointersOf((await look(count, looks).expect(400)).body)).toEqual(['#/looks/0/lineId', '#/looks/1/itemId', '#/looks/2/lineId']);
    expect(pointersOf((await look(count, [{ lineId: line(count, 0), counted: '-1' }]).expect(400)).body)).toEqual(['#/looks/0/counted']);
    const twice = [1, 2].map(() => ({ lineId: line(count, 0), counted: '1' }));
    expect(pointersOf((await look(count, twice).expect(400)).body)).toEqual(['#/looks/1/lineId']);
  });

  test('is closed once, with a post of what two looks agree upon, and tells what was found', async () => {
    const body = { id: randomUUID(), note: 'Yearly' };
    const first = (await ada.api.post(`/api/counts/${count.id}/close`, body).expect(200)).body;
    expect(first).toMatchObject({ state: 'closed', endedBy: 'Ada', postId: body.id });
    expect(first.lines[1]).toMatchObject({ counted: '2', book: '3' });
    expect((await ada.api.post(`/api/counts/${count.id}/close`, body).expect(200)).body).toEqual(first);
    expect((await ada.api.post(`/api/counts/${count.id}/close`, { ...body, note: 'Other' }).expect(422)).body.code).toBe('store/post-id-used');
    await close(count).expect(409);
    await look(count, [{ lineId: line(count, 0), counted: '9' }]).expect(409);
    expect((await stock()).sort()).toEqual(['2 B null', '2 C null', '3 C X9', '9 A L1']);
    expect((await ada.api.get(`/api/stock/posts/${body.id}`).expect(200)).body).toMatchObject({ kind: 'count', note: 'Count of 2026-11-25: Yearly' });
    expect(await faults()).toEqual([]);
  });

  test('asks for another look where more was taken since than was found', async () => {
    const again = await start();
    const three = again.lines.find(({ itemCode }) => itemCode === 'B')?.id;
    const rest = again.lines.filter(({ id: lineId }) => lineId !== three);
    const onHand: Record<string, string> = { A: '9', C: '2' };
    await look(
      again,
      rest.map((each, at) => ({ lineId: each.id, counted: at === rest.length - 1 ? '3' : (onHand[each.itemCode] ?? '') })),
    ).expect(200);
    await look(again, [{ lineId: three, counted: '0' }]).expect(200);
    await look(again, [{ lineId: three, counted: '0' }]).expect(200);
    now = new Date('2026-11-25T11:00:00Z');
    await post('scrap', '2026-11-25T10:30:00Z', [{ itemId: id(1), quantity: '1', fromPlaceId: van.id }], { note: 'torn' });
    expect((await close(again).expect(409)).body.title).toContain('B: 1 are left');
    expect((await ada.api.post(`/api/counts/${again.id}/drop`, {}).expect(200)).body).toMatchObject({ state: 'dropped', postId: null });
    expect((await ada.api.get('/api/counts?state=dropped').expect(200)).body.items).toHaveLength(1);
  });
});
