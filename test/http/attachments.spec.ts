import { randomUUID } from 'node:crypto';
import { deflateSync } from 'node:zlib';
import { afterAll, beforeAll, describe, expect, test } from '@jest/globals';
import type { NestFastifyApplication } from '@nestjs/platform-fastify';
import { Database } from '../../src/app/index.js';
import type { Api } from '../support/api.js';
import { makeSkids, type SmallSkid, signInAs } from '../support/small-fleet.js';
import { startTestApp } from '../support/test-app.js';

/** The smallest files of their kinds: heads as the formats' specifications say, and for the PNG one whole grey pixel. */
const JPEG = Buffer.from('ffd8ffe000104a46494600010100000100010000ffdb0043', 'hex');
const PNG = Buffer.concat([
  Buffer.from('89504e470d0a1a0a0000000d4948445200000001000000010800000000', 'hex'),
  Buffer.from('3a7e9b55', 'hex'),
  Buffer.from('0000000a49444154', 'hex'),
  deflateSync(Buffer.from([0, 128])),
]);
const WEBP = Buffer.from('RIFF\x1a\0\0\0WEBPVP8 \x0e\0\0\0', 'latin1');
const PDF = Buffer.from('%PDF-1.7\n%\xe2\xe3\xcf\xd3\n', 'latin1');
const HEIC = Buffer.from('\0\0\0\x18ftypheic\0\0\0\0mif1heic', 'latin1');
const SVG = Buffer.from('<svg xmlns="http://www.w3.org/2000/svg"><script>alert(1)</script></svg>');
const HTML = Buffer.from('<!doctype html><script>alert(1)</script>');

let app: NestFastifyApplication;
let alder: SmallSkid;
let birch: SmallSkid;
let manager: Api;
let technician: Api;
let client: Api;
let jobOfAlder: string;
let jobOfBirch: string;

beforeAll(async () => {
  app = await startTestApp();
  const { prisma } = app.get(Database);
  [alder, birch] = (await Promise.all(['Alder', 'Birch'].map((name) => makeSkids(app, name, 1).then(([skid]) => skid)))) as [SmallSkid, SmallSkid];
  manager = await signInAs(app, 'manager');
  technician = await signInAs(app, 'technician');
  client = await signInAs(app, 'client', { clientId: alder.clientId });
  const job = ({ id: skidId, clientId, siteId }: SmallSkid) =>
    prisma.job.create({ data: { skidId, clientId, siteId, kind: 'request', title: 'Leak', createdBy: 'T' } }).then(({ id }) => id);
  [jobOfAlder, jobOfBirch] = [await job(alder), await job(birch)];
});
afterAll(() => app?.close());

const at = (id: string, ofId: string, ofKind = 'job', more = '') => `/api/attachments/${id}?ofKind=${encodeURIComponent(ofKind)}&ofId=${ofId}${more}`;
const send = (by: Api, path: string, content: Buffer, name = 'photo.jpg') => by.call('put', path).attach('file', content, name);
const keep = async (by: Api, content: Buffer, name = 'photo.jpg', ofId = jobOfAlder) =>
  (await send(by, at(randomUUID(), ofId), content, name).expect(200)).body;

describe('a file', () => {
  test('is kept under the id of its sender, and the same again changes nothing', async () => {
    const id = randomUUID();
    const first = await send(technician, at(id, jobOfAlder, 'job', '&place=step%203'), JPEG, 'pump.jpg').expect(200);
    expect(first.body).toMatchObject({
      id,
      ofKind: 'job',
      ofId: jobOfAlder,
      place: 'step 3',
      name: 'pump.jpg',
      mediaType: 'image/jpeg',
      bytes: JPEG.length,
      by: 'A technician',
    });
    const again = await send(technician, at(id, jobOfAlder, 'job', '&place=step%203'), JPEG, 'pump.jpg').expect(200);
    expect(again.body).toEqual(first.body);
    const { body } = await manager.get(`/api/attachments?ofKind=job&ofId=${jobOfAlder}`).expect(200);
    expect(body.items).toEqual([first.body]);
  });

  test('sent twice at once is kept once', async () => {
    const id = randomUUID();
    const answers = await Promise.all([1, 2, 3].map(() => send(technician, at(id, jobOfAlder), PDF, 'a.pdf')));
    expect(answers.map(({ status }) => status)).toEqual([200, 200, 200]);
    expect(new Set(answers.map(({ text }) => text)).size).toBe(1);
  });

  test('does not take the id of another one, or of another record', async () => {
    const { id } = await keep(technician, JPEG);
    const { body } = await send(technician, at(id, jobOfAlder), PNG).expect(409);
    expect(body).toMatchObject({ code: 'attachments/id-taken', title: expect.stringContaining('id of its own') });
    await send(technician, at(id, jobOfBirch), JPEG).expect(409);
  });

  test('may be the body itself, as a page sends it that kept it without signal', async () => {
    const id = randomUUID();
    const put = () =>
      technician
        .call('put', at(id, jobOfAlder, 'job', '&name=valve.webp'))
        .set('content-type', 'image/webp')
        .send(WEBP);
    const { body } = await put().expect(200);
    expect(body).toMatchObject({ name: 'valve.webp', mediaType: 'image/webp' });
    expect((await put().expect(200)).body).toEqual(body);
  });

  test('is what its first bytes say, whatever its sender says', async () => {
    expect(await keep(technician, PNG, 'photo.pdf')).toMatchObject({ mediaType: 'image/png', name: 'photo.pdf' });
    expect(await keep(technician, PDF, '')).toMatchObject({ mediaType: 'application/pdf', name: 'file without a name' });
  });
});

describe('read back', () => {
  test('it is the same bytes, shown and never run', async () => {
    const { id } = await keep(technician, PNG, 'évil.html');
    const answer = await client.get(`/api/attachments/${id}`).expect(200);
    expect(Buffer.from(answer.body)).toEqual(PNG);
    expect(answer.headers).toMatchObject({
      'content-type': 'image/png',
      'content-disposition': 'inline; filename="_vil.png"; filename*=UTF-8\'\'%C3%A9vil.png',
      'x-content-type-options': 'nosniff',
      'cache-control': 'private, max-age=31536000, immutable',
    });
    expect(answer.headers['content-security-policy']).toMatch(/^sandbox; default-src 'none'/);
    await client.get(`/api/attachments/${id}`).set('if-none-match', String(answer.headers.etag)).expect(304);
  });

  test('it is whole even at the largest size, and one byte more is refused', async () => {
    const largest = Buffer.concat([JPEG, Buffer.alloc(8 * 1024 ** 2 - JPEG.length, 7)]);
    const { id, bytes } = await keep(technician, largest);
    expect(bytes).toBe(8 * 1024 ** 2);
    const { body } = await manager.get(`/api/attachments/${id}`).expect(200);
    expect(largest.equals(body)).toBe(true);
    await send(technician, at(randomUUID(), jobOfAlder), Buffer.concat([largest, Buffer.alloc(1)])).expect(413);
  });

  test('a PDF is downloaded', async () => {
    const { id } = await keep(technician, PDF, 'certificate.pdf');
    const { headers } = await manager.get(`/api/attachments/${id}`).expect(200);
    expect(headers['content-type']).toBe('application/pdf');
    expect(headers['content-disposition']).toMatch(/^attachment; filename="certificate\.pdf"/);
  });
});

describe('refused, with what to do,', () => {
  test.each([
    ['a drawing that may hold a script', SVG, 'plan.svg', 'neither an image nor a PDF'],
    ['a page', HTML, 'photo.jpg', 'neither an image nor a PDF'],
    ['a photograph that most browsers cannot show', HEIC, 'IMG_1.heic', 'send it as JPEG'],
    ['a program', Buffer.from('MZ\x90\0\x03\0\0\0\x04'), 'photo.png', 'application/'],
    ['half a head', JPEG.subarray(0, 2), 'photo.jpg', 'neither an image nor a PDF'],
  ])('is %s', async (_, content, name, why) => {
    const { body } = await send(technician, at(randomUUID(), jobOfAlder), content, name).expect(422);
    expect(body).toMatchObject({ code: 'attachments/not-kept', errors: [{ pointer: '#/file', message: expect.stringContaining(why) }] });
    expect(body.errors[0].message).toMatch(/send /);
  });

  test('is a photograph of 30 MB, in either form, with the size that was seen', async () => {
    const large = Buffer.concat([JPEG, Buffer.alloc(30 * 1024 ** 2)]);
    const asForm = await send(technician, at(randomUUID(), jobOfAlder), large).expect(413);
    expect(asForm.body).toMatchObject({ code: 'attachments/too-large', errors: [{ message: expect.stringContaining('has 30.0 MB; 8 MB are the most') }] });
    const asBody = await technician.call('put', at(randomUUID(), jobOfAlder)).set('content-type', 'image/jpeg').send(large).expect(413);
    expect(asBody.body.errors[0].message).toContain('30.0 MB');
    await technician.get('/api/session').expect(200);
  });

  test('is a request without a file, or with one that is empty or of no kind of form', async () => {
    await technician.put(at(randomUUID(), jobOfAlder), { file: 'text' }).expect(400);
    await technician.call('put', at(randomUUID(), jobOfAlder)).field('name', 'x').expect(400);
    await send(technician, at(randomUUID(), jobOfAlder), Buffer.alloc(0)).expect(400);
    await technician.call('put', at(randomUUID(), jobOfAlder)).set('content-type', 'multipart/form-data').send('nonsense').expect(400);
    await technician.call('post', '/api/people').set('content-type', 'image/png').send(PNG).expect(415);
  });

  test.each([
    ['no kind', 'ofKind=&ofId=0192f0c1-2345-7678-9abc-def012345678', 'ofKind'],
    ['a kind that has no files', 'ofKind=client&ofId=0192f0c1-2345-7678-9abc-def012345678', 'ofKind'],
    ['no id', 'ofKind=job&ofId=7', 'ofId'],
    ['a place that is too long', `ofKind=job&ofId=0192f0c1-2345-7678-9abc-def012345678&place=${'x'.repeat(121)}`, 'place'],
  ])('is %s, by name of the field', async (_, query, field) => {
    const { body } = await send(technician, `/api/attachments/${randomUUID()}?${query}`, JPEG).expect(400);
    expect(body.errors[0].pointer).toBe(`#/${field}`);
  });

  test('is what hangs on nothing, or on too full a record', async () => {
    const { body } = await send(technician, at(randomUUID(), randomUUID()), JPEG).expect(404);
    expect(body.title).toContain('There is no job');
    await manager.get(`/api/attachments?ofKind=report&ofId=${randomUUID()}`).expect(404);
    const { prisma } = app.get(Database);
    const item = await prisma.item.create({ data: { code: 'I-9', name: 'Seal', kind: 'seal' } });
    const row = {
      ofKind: 'item',
      ofId: item.id,
      name: 'a',
      mediaType: 'image/png',
      bytes: 1,
      sha256: 'x',
      content: new Uint8Array(1),
      byId: randomUUID(),
      by: 'T',
    };
    await prisma.attachment.createMany({ data: Array.from({ length: 60 }, () => ({ ...row, id: randomUUID() })) });
    expect((await send(manager, at(randomUUID(), item.id, 'item'), JPEG).expect(409)).body.code).toBe('attachments/too-many');
  });
});

describe('a client’s person', () => {
  test('adds to the jobs of their own client, and sees what staff add there', async () => {
    const own = await keep(client, JPEG, 'leak.jpg');
    expect(own.by).toBe('A client');
    const ofStaff = await keep(technician, PNG);
    const { body } = await client.get(`/api/attachments?ofKind=job&ofId=${jobOfAlder}`).expect(200);
    expect(body.items.map(({ id }: { id: string }) => id)).toEqual(expect.arrayContaining([own.id, ofStaff.id]));
  });

  test('finds no file and no job of another client, and nothing of the department’s', async () => {
    await send(client, at(randomUUID(), jobOfBirch), JPEG).expect(404);
    const { id } = await keep(technician, JPEG, 'photo.jpg', jobOfBirch);
    await client.get(`/api/attachments/${id}`).expect(404);
    await client.get(`/api/attachments?ofKind=job&ofId=${jobOfBirch}`).expect(404);
    const item = await app.get(Database).prisma.item.create({ data: { code: 'I-1', name: 'Seal', kind: 'seal' } });
    const drawing = await send(manager, at(randomUUID(), item.id, 'item'), PDF, 'drawing.pdf').expect(200);
    await client.get(`/api/attachments/${drawing.body.id}`).expect(404);
    await send(client, at(randomUUID(), item.id, 'item'), JPEG).expect(404);
  });

  test('who is bound to one site adds to its jobs alone', async () => {
    const { prisma } = app.get(Database);
    const other = await prisma.site.create({ data: { clientId: alder.clientId, name: 'Second works', timeZone: 'UTC' } });
    const operator = await signInAs(app, 'client', { clientId: alder.clientId, siteId: other.id });
    await send(operator, at(randomUUID(), jobOfAlder), JPEG).expect(404);
    const here = await signInAs(app, 'client', { clientId: alder.clientId, siteId: alder.siteId });
    await send(here, at(randomUUID(), jobOfAlder), JPEG).expect(200);
  });
});
