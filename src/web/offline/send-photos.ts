import { words } from '../words.js';
import { KEYS, type KeptStore } from './kept-store.js';
import type { Parcel, PhotoRef, Refusal, ReportAnswer } from './parcel.js';

export type NoReply =
  /** Nobody answered, or a fault that passes: worth asking again */
  { readonly kind: 'no answer' } | { readonly kind: 'signed out' };

export type Reply<T> = NoReply | { readonly kind: 'stored'; readonly answer: T } | { readonly kind: 'refused'; readonly refusal: Refusal };

/** The way to the service. */
export interface Transport {
  /** The id of the person whom the service takes this device for */
  who(): Promise<Reply<string>>;
  photo(photo: PhotoRef, content: ArrayBuffer, jobId: string): Promise<Reply<null>>;
  report(parcel: Parcel): Promise<Reply<ReportAnswer>>;
}

/**
 * Sends the photographs of a parcel and notes each one on the device, so that the next try goes on where this one stopped.
 * One that the service refuses is set aside with the reason, and does not hold up the report.
 */
export async function sendPhotos(
  first: Parcel,
  store: KeptStore,
  transport: Transport,
  note: (parcel: Parcel) => Promise<void>,
): Promise<NoReply | { readonly kind: 'gone out'; readonly parcel: Parcel }> {
  let parcel = first;
  for (const photo of first.unsent) {
    const content = await store.get<ArrayBuffer>(KEYS.photo(photo.id));
    const reply = content === undefined ? lost() : await transport.photo(photo, content, parcel.jobId);
    if (reply.kind === 'no answer' || reply.kind === 'signed out') return reply;
    const refused = reply.kind === 'refused' ? [{ photo, reason: reply.refusal.errors[0]?.message ?? reply.refusal.title }] : [];
    parcel = { ...parcel, unsent: parcel.unsent.filter(({ id }) => id !== photo.id), refusedPhotos: [...parcel.refusedPhotos, ...refused] };
    await note(parcel);
  }
  return { kind: 'gone out', parcel };
}

const lost = (): Reply<null> => ({ kind: 'refused', refusal: { title: words.unsent.photoLost, errors: [] } });
