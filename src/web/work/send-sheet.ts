import { outbox } from '../offline/device-outbox.js';
import type { Parcel, Refusal } from '../offline/parcel.js';
import { workWords } from '../words/work.js';
import type { Draft } from './draft.js';
import { keepDraft } from './keep-draft.js';
import { toReport } from './to-report.js';

export type Sent =
  /** With the service, or on the device and on its way: the device knows */
  | { readonly kind: 'taken' }
  | { readonly kind: 'refused'; readonly refusal: Refusal }
  /** Neither sent nor kept: the page must stay open */
  | { readonly kind: 'lost its way' };

/** Puts the sheet on the device and sends it: at once where there is signal, else when it comes back. */
export async function sendSheet(draft: Draft, now: Date, isOnline: boolean): Promise<Sent> {
  const parcel = parcelOf(draft, now, isOnline);
  try {
    await keepDraft(draft);
    await outbox.put(parcel);
  } catch (error) {
    outbox.cannotKeep(error);
    const reply = await outbox.sendUnkept(parcel);
    return reply.kind === 'refused' ? reply : { kind: reply.kind === 'stored' ? 'taken' : 'lost its way' };
  }
  if (!isOnline) {
    void outbox.sendAll(); // the browser may be wrong about the signal
    return { kind: 'taken' };
  }
  const reply = await outbox.sendAtOnce(parcel);
  return reply.kind === 'refused' ? reply : { kind: 'taken' };
}

function parcelOf(draft: Draft, now: Date, isOnline: boolean): Parcel {
  const { sheet, photos } = draft;
  return {
    id: draft.reportId,
    personId: draft.personId,
    personName: draft.personName,
    jobId: draft.jobId,
    title: `${workWords.job(sheet.no, sheet.title)}, ${sheet.skidName}, ${sheet.siteName}`,
    queuedAt: now.toISOString(),
    report: toReport(draft, !isOnline).report,
    corrects: draft.refused?.isHeld ?? false,
    photoIds: photos.map(({ id }) => id),
    // What came back with a held sheet is with the service already.
    unsent: photos.filter(({ bytes }) => bytes > 0),
    refusedPhotos: [],
    tries: 0,
    refused: null,
    isStored: false,
  };
}
