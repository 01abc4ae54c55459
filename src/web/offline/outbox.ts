import { allFrom, KEYS, type KeptStore } from './kept-store.js';
import { type KeptAnswer, type Parcel, type ReportAnswer, withoutPhotos } from './parcel.js';
import { type Reply, sendPhotos, type Transport } from './send-photos.js';

export interface OutboxSurroundings {
  readonly store: KeptStore;
  readonly transport: Transport;
  readonly now: () => Date;
  /** Runs work while no other page of this device does */
  readonly alone: <T>(work: () => Promise<T>) => Promise<T>;
  /** Runs work after so long; answers with a way to call it off */
  readonly later: (pauseMs: number, work: () => void) => () => void;
  /** The service knows nobody any longer, or somebody else */
  readonly onOtherPerson: () => void;
  /** Tells the other pages of this device that something changed */
  readonly tellOthers: () => void;
}

export interface Unsent {
  readonly parcels: readonly Parcel[];
  readonly isSending: boolean;
  /** What the device would not keep, or not give back */
  readonly failure: 'full' | 'off' | null;
}

const PAUSES_MS = [5_000, 15_000, 45_000, 120_000, 300_000, 600_000] as const;

/**
 * Job sheets that wait for signal. Each is on the device before anything is sent, goes out once and in its order, under the name of the person who
 * filled it in, and leaves the device only when the service has stored it.
 */
export class Outbox {
  private unsent: Unsent = { parcels: [], isSending: false, failure: null };
  private readonly listeners = new Set<() => void>();
  private personId: string | null = null;
  private failures = 0;
  private callOff: (() => void) | undefined;
  private running: Promise<void> | undefined;

  constructor(private readonly around: OutboxSurroundings) {}

  readonly snapshot = (): Unsent => this.unsent;
  readonly subscribe = (listener: () => void): (() => void) => {
    this.listeners.add(listener);
    return () => this.listeners.delete(listener);
  };

  /** Looks again at what lies on the device. */
  async look(): Promise<void> {
    try {
      const parcels = await allFrom<Parcel>(this.around.store, KEYS.parcels);
      const { failure } = this.unsent;
      this.show({ parcels: parcels.toSorted((one, other) => one.queuedAt.localeCompare(other.queuedAt)), failure: failure === 'off' ? null : failure });
    } catch {
      this.show({ failure: 'off' });
    }
  }

  /** Whose sheets may go out now; null: nobody is signed in. */
  async isFor(personId: string | null): Promise<void> {
    this.personId = personId;
    if (personId === null) await this.look();
    else await this.signalIsBack();
  }

  /** Says on every page that one of them could not keep something. */
  cannotKeep(error: unknown): void {
    this.show({ failure: error instanceof Error && error.name === 'QuotaExceededError' ? 'full' : 'off' });
  }

  /** Keeps a sheet on the device, to be sent when there is signal. Throws when there is no room. */
  async put(parcel: Parcel): Promise<void> {
    await this.keep(parcel);
    this.show({ failure: null });
  }

  /**
   * Sends one sheet while its person waits. What the service finds wrong comes back, and the sheet is its person's to change again.
   * Behind others that wait it takes its turn, and the answer is then found on the device.
   */
  async sendAtOnce(parcel: Parcel): Promise<Reply<ReportAnswer | null>> {
    if (this.unsent.parcels.some((one) => one.id !== parcel.id && this.mayGo(one))) {
      await this.sendAll();
      return { kind: 'no answer' };
    }
    const reply = await this.alone(async () => {
      const isThere = (await this.around.store.get(KEYS.parcel(parcel.id))) !== undefined;
      return isThere ? this.sendOne(parcel) : ({ kind: 'no answer' } as const);
    });
    if (reply.kind === 'refused') await this.takeBack(parcel.id);
    if (reply.kind === 'no answer') this.again();
    return reply;
  }

  /** As `sendAtOnce`, on a device that has no room to keep the sheet first: better sent than lost. */
  sendUnkept(parcel: Parcel): Promise<Reply<ReportAnswer | null>> {
    return this.alone(() => this.sendOne(parcel, async () => undefined));
  }

  /** Sends what waits, in its order. Asked again while it runs, it is the same run. */
  sendAll(): Promise<void> {
    this.callOff?.();
    this.running ??= this.alone(() => this.sendWaiting())
      .catch((error: unknown) => this.cannotKeep(error))
      .finally(() => {
        this.running = undefined;
      });
    return this.running;
  }

  /** As `sendAll`, when there is reason to think that somebody answers again. */
  signalIsBack(): Promise<void> {
    this.failures = 0;
    return this.sendAll();
  }

  /** Out of the outbox again: the draft on the device is then what there is of it. */
  async takeBack(parcelId: string): Promise<void> {
    await this.around.store.remove([KEYS.parcel(parcelId)]);
    await this.changed();
  }

  /** Its person throws a sheet away that the service will not have: nobody else may. */
  async throwAway({ id, personId, jobId, photoIds }: Parcel): Promise<void> {
    await this.around.store.remove([KEYS.parcel(id), KEYS.draft(personId, jobId), KEYS.answer(personId, jobId), ...photoIds.map(KEYS.photo)]);
    await this.changed();
  }

  async sendPhotosAgain(parcel: Parcel): Promise<void> {
    const photos = parcel.refusedPhotos.map(({ photo }) => photo);
    await this.keep({ ...parcel, unsent: [...parcel.unsent, ...photos], refusedPhotos: [] });
    await this.signalIsBack();
  }

  /** Of a report that is stored: its person does not want the rest. */
  async giveUpPhotos(parcel: Parcel): Promise<void> {
    const photos = parcel.refusedPhotos.map(({ photo }) => KEYS.photo(photo.id));
    await this.around.store.remove([KEYS.parcel(parcel.id), ...photos]);
    await this.changed();
  }

  private async sendWaiting(): Promise<void> {
    await this.look();
    for (const parcel of this.unsent.parcels.filter((one) => this.mayGo(one))) {
      const reply = await this.sendOne({ ...parcel, report: { ...parcel.report, offline: true } });
      if (reply.kind === 'no answer') return this.again();
      if (reply.kind === 'signed out') return;
      if (reply.kind === 'refused') await this.refuse(parcel.id, reply.refusal);
    }
    this.failures = 0;
  }

  private mayGo({ personId, refused, isStored, unsent }: Parcel): boolean {
    return personId === this.personId && refused === null && (!isStored || unsent.length > 0);
  }

  private async sendOne(waiting: Parcel, note = (parcel: Parcel) => this.keep(parcel)): Promise<Reply<ReportAnswer | null>> {
    // Another page of this device may have let somebody else in: what the service believes counts, not what this page believes.
    const who = await this.around.transport.who();
    if (who.kind === 'signed out' || (who.kind === 'stored' && who.answer !== waiting.personId)) {
      this.around.onOtherPerson();
      return { kind: 'signed out' };
    }
    if (who.kind !== 'stored') return who;
    const { store, transport } = this.around;
    const begun = { ...waiting, tries: waiting.tries + 1 };
    await note(begun);
    const photos = await sendPhotos(begun, store, transport, note);
    if (photos.kind !== 'gone out') return photos;
    const { parcel } = photos;
    if (parcel.isStored) {
      await this.clear(parcel, false);
      return { kind: 'stored', answer: null };
    }
    const refused = parcel.refusedPhotos.map(({ photo }) => photo.id);
    const reply = await transport.report({ ...parcel, report: withoutPhotos(parcel.report, refused) });
    if (reply.kind === 'signed out') this.around.onOtherPerson();
    if (reply.kind === 'stored') await this.stored(parcel, reply.answer);
    return reply;
  }

  private async stored(parcel: Parcel, { id, state, problems }: ReportAnswer): Promise<void> {
    const { jobId, personId, title } = parcel;
    const answer: KeptAnswer = { id, state, problems, jobId, title, at: this.around.now().toISOString() };
    await this.around.store.put([[KEYS.answer(personId, jobId), answer]]);
    await this.clear(parcel, state === 'held');
  }

  /** The report is safe, so what the device kept of it goes; of one that is held the draft stays, as its person may still mend it. */
  private async clear(parcel: Parcel, isHeld: boolean): Promise<void> {
    const { store } = this.around;
    const left = parcel.refusedPhotos.map(({ photo }) => photo.id);
    if (left.length > 0) await store.put([[KEYS.parcel(parcel.id), { ...parcel, isStored: true }]]);
    const photos = parcel.photoIds.filter((id) => !left.includes(id)).map(KEYS.photo);
    await store.remove([...(isHeld ? [] : [KEYS.draft(parcel.personId, parcel.jobId), ...photos]), ...(left.length > 0 ? [] : [KEYS.parcel(parcel.id)])]);
    await this.changed();
  }

  private async refuse(parcelId: string, refused: Parcel['refused']): Promise<void> {
    const parcel = await this.around.store.get<Parcel>(KEYS.parcel(parcelId));
    if (parcel !== undefined) await this.keep({ ...parcel, refused });
  }

  private again(): void {
    const pause = PAUSES_MS[Math.min(this.failures, PAUSES_MS.length - 1)] ?? 0;
    this.failures += 1;
    this.callOff?.();
    this.callOff = this.around.later(pause, () => void this.sendAll());
  }

  private async keep(parcel: Parcel): Promise<void> {
    await this.around.store.put([[KEYS.parcel(parcel.id), parcel]]);
    await this.changed();
  }

  private async changed(): Promise<void> {
    await this.look();
    this.around.tellOthers();
  }

  private alone<T>(work: () => Promise<T>): Promise<T> {
    return this.around.alone(async () => {
      this.show({ isSending: true });
      try {
        return await work();
      } finally {
        this.show({ isSending: false });
      }
    });
  }

  private show(change: Partial<Unsent>): void {
    this.unsent = { ...this.unsent, ...change };
    for (const tell of this.listeners) tell();
  }
}

export interface UnsentOfPerson {
  readonly personId: string;
  readonly personName: string;
  readonly sheets: number;
  readonly photos: number;
}

/** How many sheets and photographs wait, by the person whose they are. */
export function countUnsent(parcels: readonly Parcel[]): UnsentOfPerson[] {
  const people = new Map(parcels.map(({ personId, personName }) => [personId, personName]));
  return [...people].map(([personId, personName]) => {
    const own = parcels.filter((parcel) => parcel.personId === personId);
    return {
      personId,
      personName,
      sheets: own.filter(({ isStored }) => !isStored).length,
      photos: own.reduce((sum, { unsent, refusedPhotos }) => sum + unsent.length + refusedPhotos.length, 0),
    };
  });
}
