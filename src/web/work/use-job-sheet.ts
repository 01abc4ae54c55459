import { useQueryClient } from '@tanstack/react-query';
import { useCallback, useEffect, useRef, useState } from 'react';
import { newUuid } from '../new-uuid.js';
import { outbox, useUnsent } from '../offline/device-outbox.js';
import { deviceStore } from '../offline/device-store.js';
import { KEYS } from '../offline/kept-store.js';
import type { KeptAnswer, Parcel } from '../offline/parcel.js';
import { useSession } from '../session/session.js';
import { useUnits } from '../units-choice.js';
import { type Draft, startDraft } from './draft.js';
import { keepDraft } from './keep-draft.js';
import { refusedSheet } from './refused-sheet.js';
import { useSheetElsewhere, useSheets } from './use-sheets.js';

export interface JobSheet {
  readonly isLooking: boolean;
  readonly draft: Draft | undefined;
  /** On its way, or refused on its way */
  readonly parcel: Parcel | undefined;
  readonly answer: KeptAnswer | undefined;
  readonly saved: 'no' | 'restored' | 'saved' | 'failed';
  readonly change: (change: (before: Draft) => Draft) => void;
  /** Another sheet for the same job, where it is not finished yet */
  readonly startAnother: (() => void) | undefined;
  readonly takeBack: () => Promise<void>;
}

/** The sheet of a job as this device has it: filled in so far, on its way, or answered. Every change is kept at once. */
export function useJobSheet(jobId: string): JobSheet {
  const session = useSession();
  const { id: personId } = session;
  const units = useUnits();
  const client = useQueryClient();
  const { found, isLooking: isLookingHere, isFetching } = useSheets();
  const parcel = useUnsent().parcels.find((one) => one.jobId === jobId && one.personId === personId && !one.isStored);
  const [kept, setKept] = useState<{ readonly draft?: Draft; readonly answer?: KeptAnswer } | undefined>();
  const [draft, setDraft] = useState<Draft | undefined>();
  const [saved, setSaved] = useState<JobSheet['saved']>('no');
  const isTouched = useRef(false);

  const listed = found?.sheets.visits.flatMap(({ jobs }) => jobs).find((job) => job.jobId === jobId);
  const isElsewhere = kept !== undefined && kept.draft === undefined && parcel === undefined && listed === undefined && !isLookingHere && !isFetching;
  const elsewhere = useSheetElsewhere(jobId, isElsewhere);
  const sheet = listed ?? elsewhere.data;
  const empty = () =>
    sheet &&
    startDraft({
      reportId: newUuid(),
      person: session,
      sheet,
      places: found?.sheets.places ?? [],
      units: { pressure: units.pressure, temperature: units.temperature },
    });

  // Once at the start, and again whenever the sheet goes out or comes back.
  useEffect(() => {
    let isOld = false;
    const look = async () => {
      const [keptDraft, answer] = await Promise.all([
        deviceStore.get<Draft>(KEYS.draft(personId, jobId)).catch(() => undefined),
        deviceStore.get<KeptAnswer>(KEYS.answer(personId, jobId)).catch(() => undefined),
      ]);
      if (isOld) return;
      setKept({ ...(keptDraft === undefined ? {} : { draft: keptDraft }), ...(answer === undefined ? {} : { answer }) });
      setDraft((before) =>
        isTouched.current && before !== undefined && parcel === undefined && answer === undefined ? before : withAnswer(keptDraft, answer),
      );
      if (keptDraft !== undefined) setSaved((before) => (before === 'no' ? 'restored' : before));
      if (answer !== undefined) void client.invalidateQueries({ queryKey: ['sheets', 'fresh', personId] });
    };
    void look();
    return () => {
      isOld = true;
    };
  }, [jobId, personId, parcel?.id]);

  useEffect(() => {
    if (kept !== undefined && kept.answer === undefined && draft === undefined) setDraft(empty());
  }, [kept, sheet]);

  useEffect(() => {
    if (!isTouched.current || draft === undefined) return;
    keepDraft(draft).then(
      () => setSaved('saved'),
      (error: unknown) => {
        setSaved('failed');
        outbox.cannotKeep(error);
      },
    );
  }, [draft]);

  const change = useCallback((make: (before: Draft) => Draft) => {
    isTouched.current = true;
    setDraft((before) => (before === undefined ? before : make(before)));
  }, []);

  const { answer } = kept ?? {};
  const isOpenStill = answer !== undefined && answer.state !== 'held' && found != null && found.fetchedAt > answer.at && listed !== undefined;
  return {
    isLooking:
      kept === undefined || (draft === undefined && answer === undefined && parcel === undefined && (isLookingHere || isFetching || elsewhere.isFetching)),
    draft,
    parcel,
    answer,
    saved,
    change,
    startAnother: isOpenStill
      ? () => {
          setKept({});
          setDraft(empty());
          void deviceStore.remove([KEYS.answer(personId, jobId)]).catch(() => undefined);
        }
      : undefined,
    takeBack: async () => {
      if (parcel === undefined) return;
      const before = await deviceStore.get<Draft>(KEYS.draft(personId, jobId));
      // It may be there already although no answer came: what is changed now is then a report of its own.
      const mayHaveArrived = parcel.tries > 0 && parcel.refused === null && !parcel.corrects;
      if (before !== undefined) {
        const refused = parcel.refused === null ? before.refused : refusedSheet(before, parcel.refused, parcel.corrects);
        await keepDraft({ ...before, refused, ...(mayHaveArrived ? { reportId: newUuid() } : {}) });
      }
      await outbox.takeBack(parcel.id);
    },
  };
}

/** A report that is held is open again, with what needs a change. */
function withAnswer(draft: Draft | undefined, answer: KeptAnswer | undefined): Draft | undefined {
  if (draft === undefined || answer?.state !== 'held' || draft.refused?.isHeld) return draft;
  return { ...draft, refused: refusedSheet(draft, { title: '', errors: answer.problems }, true) };
}
