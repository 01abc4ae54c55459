import { afterAll, beforeAll, expect, test } from '@jest/globals';
import type { NestFastifyApplication } from '@nestjs/platform-fastify';
import { Clock } from '../../src/app/index.js';
import { NoticeRound } from '../../src/notices/notice-round.js';
import type { Api } from '../support/api.js';
import { fetchPdf } from '../support/fetch-pdf.js';
import { MailServer, toOf } from '../support/mail-server.js';
import { haveReaders, readPdf } from '../support/pdf.js';
import { type Made, make } from '../support/records.js';
import { signInAs } from '../support/small-fleet.js';
import { startTestApp } from '../support/test-app.js';

const server = new MailServer();
let app: NestFastifyApplication;
let storekeeper: Api;
let supplier: Made;
let order: Made;

beforeAll(async () => {
  await server.start();
  app = await startTestApp(undefined, { mail: { url: server.url, from: 'Skidkeep <service@company.example>' } });
  at('2026-11-25');
  storekeeper = await signInAs(app, 'storekeeper');
  const item = await make(storekeeper, '/api/items', { code: 'SEAL-25', name: 'Seal 25 mm', kind: 'seal' });
  const place = await make(storekeeper, '/api/places', { name: 'Main store', kind: 'store' });
  supplier = await make(storekeeper, '/api/suppliers', { name: 'Brook Seals', currency: 'EUR', leadDays: 10, customerNumber: 'K-77' });
  const lines = [{ itemId: item.id, quantity: '3', unit: 'DZN', price: '36', neededOn: '2026-12-20' }];
  order = await make(storekeeper, '/api/orders', { supplierId: supplier.id, placeId: place.id, note: 'Gate 2', lines });
});
afterAll(async () => {
  await app?.close();
  await server.stop();
});

function at(day: string): void {
  app.get(Clock).now = () => new Date(`${day}T15:00:00Z`);
}

const mail = (version: number) => storekeeper.call('post', `/api/orders/${order.id}/mail`).set('if-match', `"${version}"`);
const read = async (): Promise<Made & { readonly changes: { what: string }[] }> => (await storekeeper.get(`/api/orders/${order.id}`).expect(200)).body;

test('an order is mailed when it is approved and its supplier has an address, and is then marked as sent', async () => {
  expect((await mail(1).expect(409)).body.title).toContain('no e-mail address');
  await storekeeper.patch(`/api/suppliers/${supplier.id}`, 1, { email: 'orders@brook.example' }).expect(200);
  expect((await mail(1).expect(409)).body.title).toContain('approve and send it first');
  const approved = (await storekeeper.call('post', `/api/orders/${order.id}/approve`).set('if-match', '"1"').expect(200)).body;
  await mail(1).expect(412);
  await mail(approved.version).expect(202);
  expect(await read()).toMatchObject({ state: 'sent', sentHow: 'e-mail', sentBy: 'A storekeeper' });
  await app.get(NoticeRound).now();
  const [message, ...others] = server.taken();
  expect(others).toEqual([]);
  expect(message === undefined ? '' : toOf(message)).toBe('orders@brook.example');
  for (const said of ['3 dozen', 'K-77', 'Main store', 'Gate 2', '108 EUR', '20 Dec 2026']) expect(message?.text).toContain(said);
});

test('a late one is asked after, once for each asking', async () => {
  at('2026-12-10');
  const { version } = await read();
  await mail(version).expect(202);
  await mail(version).expect(412);
  await app.get(NoticeRound).now();
  const [message, ...others] = server.taken();
  expect(others).toEqual([]);
  expect(message?.subject).toContain('when will it come');
  expect(message?.text).toContain('due on 5 Dec 2026');
  expect((await read()).changes.map(({ what }) => what)).toEqual(['made', 'approved', 'sent', 'chased']);
});

const readers = haveReaders();
(readers ? test : test.skip)('on paper it says what is ordered, and of a draft that it was not sent', async () => {
  const { text } = readPdf((await fetchPdf(storekeeper, `/api/orders/${order.id}/order.pdf`).expect(200)).body);
  for (const said of ['Purchase order', 'Brook Seals', 'K-77', 'Seal 25 mm (SEAL-25)', '108 EUR', 'Gate 2']) expect(text).toContain(said);
  expect(text).not.toContain('was not sent');
  const { supplierId, placeId, lines } = await read();
  const [line] = lines as { itemId: string }[];
  const draft = await make(storekeeper, '/api/orders', { supplierId, placeId, lines: [{ itemId: line?.itemId, quantity: '1' }] });
  expect(readPdf((await fetchPdf(storekeeper, `/api/orders/${draft.id}/order.pdf`).expect(200)).body).text).toContain('was not sent');
});
