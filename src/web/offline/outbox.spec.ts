import { beforeEach, describe, expect, it } from '@jest/globals';
import { memoryStore } from '../../../test/support/memory-store.js';
import { KEYS } from './kept-store.js';
import { countUnsent, Outbox } from './outbox.js';
import type { Parcel, PhotoRef } from './parcel.js';
import type { Reply, Transport } from './send-photos.js';

const photo = (id: string): PhotoRef => ({ id, place: '', name: `${id}.jpg`, mediaType: 'image/jpeg', bytes: 3 });
const parcel = (id: string, about: Partial<Parcel> = {}): Parcel => ({
  id,
  personId: 'jo',
  personName: 'Jo Fell',
  jobId: `job of ${id}`,
  title: 'Job 1: Service',
  queuedAt: `2026-11-25T08:0${id.at(-1)}:00Z`,
  report: { id, offline: false, attachmentIds: [], tasks: [] },
  corrects: false,
  photoIds: [],
  unsent: [],
  refusedPhotos: [],
  tries: 0,
  refused: null,
  isStored: false,
  ...about,
});
const withPhotos = (id: string, ...ids: string[]) =>
  parcel(id, {
    photoIds: ids,
    unsent: ids.map(photo),
    report: { id, offline: false, attachmentIds: ids, tasks: [{ steps: [{ attachmentIds: ids }, {}] }] },
  });

const REFUSED: Reply<never> = { kind: 'refused', refusal: { title: 'Not so', errors: [{ pointer: '#/signedBy', message: 'Nobody signed' }] } };
const SILENCE: Reply<never> = { kind: 'no answer' };
const SIGNED_OUT: Reply<never> = { kind: 'signed out' };

let store: ReturnType<typeof memoryStore>;
let calls: string[];
let sent: Parcel[];
let pauses: number[];
let again: () => void;
let asked: number;
/** What the service does at present */
let service: { who: Reply<string>; photo: Reply<null>; report: Reply<never> | string };
let outbox: Outbox;
let busy: Promise<unknown>;

const transport: Transport = {
  who: async () => service.who,
  photo: async ({ id }) => {
    calls.push(`photo ${id}`);
    return service.photo;
  },
  report: async (out) => {
    calls.push(`report ${out.id}`);
    sent.push(out);
    if (typeof service.report !== 'string') return service.report;
    return { kind: 'stored', answer: { id: out.id, state: service.report, problems: [] } };
  },
};

function openOutbox(): Outbox {
  return new Outbox({
    store,
    transport,
    now: () => new Date('2026-11-25T09:00:00Z'),
    alone: (work) => {
      const mine = busy.then(work);
      busy = mine.catch(() => undefined);
      return mine;
    },
    later: (pauseMs, work) => {
      pauses.push(pauseMs);
      again = work;
      return () => undefined;
    },
    onOtherPerson: () => (asked += 1),
    tellOthers: () => undefined,
  });
}

/** Kept and not yet sent, as after a day in a cellar. */
async function wait(...waiting: Parcel[]): Promise<void> {
  for (const one of waiting) {
    await store.put([[KEYS.draft(one.personId, one.jobId), { of: one.id }], ...one.photoIds.map((id) => [KEYS.photo(id), new ArrayBuffer(3)] as const)]);
    await outbox.put(one);
  }
}

beforeEach(() => {
  store = memoryStore();
  [calls, sent, pauses, asked] = [[], [], [], 0];
  busy = Promise.resolve();
  service = { who: { kind: 'stored', answer: 'jo' }, photo: { kind: 'stored', answer: null }, report: 'counts' };
  outbox = openOutbox();
});

describe('job sheets that wait', () => {
  it('go out once and in their order when there is signal, photographs first, and then leave the device', async () => {
    await wait(parcel('r2'), withPhotos('r1', 'p1', 'p2'));
    await outbox.isFor('jo');
    expect(calls).toEqual(['photo p1', 'photo p2', 'report r1', 'report r2']);
    expect(sent.every(({ report }) => report.offline)).toBe(true);
    await outbox.signalIsBack();
    expect(calls).toHaveLength(4);
    expect([...store.kept.keys()].toSorted()).toEqual(['answer jo job of r1', 'answer jo job of r2']);
  });

  it('stay while nobody answers, and are tried again after a growing pause', async () => {
    service.report = SILENCE;
    await wait(withPhotos('r1', 'p1'), parcel('r2'));
    await outbox.isFor('jo');
    expect(calls).toEqual(['photo p1', 'report r1']);
    again();
    await outbox.sendAll();
    expect(pauses.slice(0, 2)).toEqual([5_000, 15_000]);
    service.report = 'counts';
    await outbox.signalIsBack();
    expect(calls.filter((call) => call === 'photo p1')).toHaveLength(1);
    expect(outbox.snapshot().parcels).toEqual([]);
  });

  it('survive a page that was closed', async () => {
    await wait(parcel('r1'));
    outbox = openOutbox();
    await outbox.isFor('jo');
    expect(calls).toEqual(['report r1']);
  });

  it('stay when the sign-in has ended, and go out after the next', async () => {
    service.who = SIGNED_OUT;
    await wait(parcel('r1'));
    await outbox.isFor('jo');
    expect([calls, asked]).toEqual([[], 1]);
    expect(outbox.snapshot().parcels).toHaveLength(1);
    service.who = { kind: 'stored', answer: 'jo' };
    await outbox.isFor('jo');
    expect(calls).toEqual(['report r1']);
  });

  it('never go out under the name of somebody else', async () => {
    await wait(parcel('r1'), parcel('r2', { personId: 'ada', personName: 'Ada Brisk' }));
    service.who = { kind: 'stored', answer: 'ada' };
    await outbox.isFor('jo'); // another page let Ada in
    expect([calls, asked]).toEqual([[], 1]);
    await outbox.isFor('ada');
    expect(calls).toEqual(['report r2']);
    expect(countUnsent(outbox.snapshot().parcels)).toEqual([{ personId: 'jo', personName: 'Jo Fell', sheets: 1, photos: 0 }]);
  });

  it('stay with the reason when the service will not have them, and hold up no other', async () => {
    service.report = REFUSED;
    await wait(parcel('r1'));
    await outbox.isFor('jo');
    service.report = 'counts';
    await wait(parcel('r2'));
    await outbox.signalIsBack();
    expect(calls).toEqual(['report r1', 'report r2']);
    expect(outbox.snapshot().parcels.map(({ id, refused }) => [id, refused?.title])).toEqual([['r1', 'Not so']]);
    await outbox.takeBack('r1');
    expect(outbox.snapshot().parcels).toEqual([]);
    expect(store.kept.has('draft jo job of r1')).toBe(true);
  });

  it('keep the draft of a report that is held, so that it can be mended', async () => {
    service.report = 'held';
    await wait(withPhotos('r1', 'p1'));
    await outbox.isFor('jo');
    expect([...store.kept.keys()].toSorted()).toEqual(['answer jo job of r1', 'draft jo job of r1', 'photo p1']);
  });

  it('go out without a photograph that is refused, which stays on the device until its person decides', async () => {
    service.photo = REFUSED;
    await wait(withPhotos('r1', 'p1'));
    await outbox.isFor('jo');
    expect(sent[0]?.report).toMatchObject({ attachmentIds: [], tasks: [{ steps: [{ attachmentIds: [] }, {}] }] });
    const [left] = outbox.snapshot().parcels;
    expect(left).toMatchObject({ isStored: true, refusedPhotos: [{ reason: 'Nobody signed' }] });
    expect(countUnsent(left === undefined ? [] : [left])).toMatchObject([{ sheets: 0, photos: 1 }]);
    service.photo = { kind: 'stored', answer: null };
    if (left !== undefined) await outbox.sendPhotosAgain(left);
    expect(calls).toEqual(['photo p1', 'report r1', 'photo p1']);
    expect(outbox.snapshot().parcels).toEqual([]);
  });
});

describe('a sheet that is sent while its person waits', () => {
  it('says that it was not queued, and brings back what the service finds wrong', async () => {
    await outbox.isFor('jo');
    service.report = REFUSED;
    await wait(parcel('r1'));
    expect(await outbox.sendAtOnce(parcel('r1'))).toEqual(REFUSED);
    expect(sent[0]?.report.offline).toBe(false);
    expect(outbox.snapshot().parcels).toEqual([]);
    expect(store.kept.has('draft jo job of r1')).toBe(true);
  });

  it('waits with the others when nobody answers', async () => {
    await outbox.isFor('jo');
    service.who = SILENCE;
    await wait(parcel('r1'));
    expect(await outbox.sendAtOnce(parcel('r1'))).toEqual(SILENCE);
    expect(outbox.snapshot().parcels).toHaveLength(1);
    expect(pauses).toEqual([5_000]);
  });

  it('takes its turn behind those that wait, and goes out once', async () => {
    await outbox.isFor('jo');
    await wait(parcel('r1'), parcel('r2'));
    await Promise.all([outbox.sendAtOnce(parcel('r2')), outbox.signalIsBack()]);
    expect(calls).toEqual(['report r1', 'report r2']);
  });
});

describe('a device without room', () => {
  it('says so at once', async () => {
    store = memoryStore(0);
    outbox = openOutbox();
    const failure = await outbox.put(parcel('r1')).catch((error: unknown) => error);
    outbox.cannotKeep(failure);
    expect(outbox.snapshot().failure).toBe('full');
  });

  it('still sends a sheet while there is signal', async () => {
    await outbox.isFor('jo');
    store = memoryStore(1);
    outbox = openOutbox();
    await outbox.isFor('jo');
    expect(await outbox.sendUnkept(parcel('r1'))).toMatchObject({ kind: 'stored' });
    expect(calls).toEqual(['report r1']);
  });
});
