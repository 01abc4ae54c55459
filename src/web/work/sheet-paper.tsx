import { useId, useMemo, useState } from 'react';
import { newUuid } from '../new-uuid.js';
import { outbox } from '../offline/device-outbox.js';
import { deviceStore } from '../offline/device-store.js';
import { KEYS } from '../offline/kept-store.js';
import type { PhotoRef } from '../offline/parcel.js';
import { Trouble } from '../ui/trouble.js';
import { workWords } from '../words/work.js';
import { words } from '../words.js';
import { checkSheet } from './check-sheet.js';
import type { Draft } from './draft.js';
import { ClockSection, EndSection } from './end-section.js';
import { MetersSection } from './meters-section.js';
import { BreakdownSection, MoreSection } from './more-section.js';
import { NextStep } from './next-step.js';
import { PartsSection } from './parts-section.js';
import { reducePhoto } from './reduce-photo.js';
import { refusedSheet } from './refused-sheet.js';
import { sendSheet } from './send-sheet.js';
import { controlId, type SheetForm, SheetFormContext } from './sheet-form.js';
import { TaskSection } from './task-section.js';
import type { JobSheet } from './use-job-sheet.js';
import { endOfWork } from './work-clock.js';

interface SheetPaperProps {
  readonly draft: Draft;
  readonly change: JobSheet['change'];
  readonly saved: JobSheet['saved'];
  /** The service has it, or the device and it is on its way */
  readonly onTaken?: () => void;
}

/** The form of a job sheet, in the order of the work. */
export function SheetPaper({ draft, change, saved, onTaken }: SheetPaperProps) {
  const { sheet, refused } = draft;
  const cautionsId = useId();
  const [found, setFound] = useState<Readonly<Record<string, string>>>();
  const [others, setOthers] = useState<readonly string[]>([]);
  const [attempt, setAttempt] = useState(0);
  const [isSending, setSending] = useState(false);
  const problems = found ?? refused?.fields ?? {};

  const refuse = (fields: Readonly<Record<string, string>> | undefined, rest: readonly string[]) => {
    setFound(fields);
    setOthers(rest);
    setAttempt((count) => count + 1);
  };
  const send = async () => {
    const ended = endOfWork(draft, new Date());
    const missing = checkSheet(ended);
    if (Object.keys(missing).length > 0) return refuse(missing, []);
    setSending(true);
    change(() => ended);
    const sent = await sendSheet(ended, new Date(), navigator.onLine);
    setSending(false);
    if (sent.kind === 'lost its way') return refuse({}, [workWords.notSaved, words.failed.noAnswer]);
    if (sent.kind === 'taken') {
      refuse({}, []);
      return onTaken?.();
    }
    change((before) => ({ ...before, refused: refusedSheet(ended, sent.refusal, ended.refused?.isHeld ?? false) }));
    return refuse(undefined, []);
  };

  const form = useMemo((): SheetForm => ({ draft, change, problems, ...photoWork(change) }), [draft, change, problems]);
  const rest =
    found === undefined && refused !== null ? (refused.others.length > 0 || Object.keys(refused.fields).length > 0 ? refused.others : [refused.title]) : others;
  const troubles = [...Object.entries(problems).map(([field, message]) => ({ id: controlId(field), message })), ...rest.map((message) => ({ message }))];
  return (
    <SheetFormContext value={form}>
      {sheet.request !== '' && (
        <p className="reason">
          {workWords.request}: {sheet.request}
        </p>
      )}
      {sheet.cautions.length > 0 && (
        <section className="block cautions" aria-labelledby={cautionsId}>
          <h2 id={cautionsId}>{workWords.cautions}</h2>
          <dl>
            {sheet.cautions.map(({ about, text }) => (
              <div key={`${about} ${text}`}>
                <dt>{about}</dt>
                <dd>{text}</dd>
              </div>
            ))}
          </dl>
        </section>
      )}
      <Trouble troubles={troubles} attempt={attempt} />
      <form
        noValidate
        onSubmit={(event) => {
          event.preventDefault();
          void send();
        }}
      >
        <ClockSection />
        {sheet.tasks.map((task) => (
          <TaskSection key={task.taskId} task={task} />
        ))}
        <PartsSection />
        <MetersSection />
        <BreakdownSection />
        <MoreSection />
        <EndSection />
        <button type="submit" className="main-button send" disabled={isSending}>
          {isSending ? workWords.sending : refused?.isHeld ? workWords.sendAgain : workWords.send}
        </button>
        <NextStep saved={saved} />
      </form>
    </SheetFormContext>
  );
}

/** Photographs go onto the device before the sheet mentions them. */
function photoWork(change: JobSheet['change']): Pick<SheetForm, 'addPhoto' | 'addDrawing' | 'removePhotos'> {
  const keep = async (content: ArrayBuffer, photo: PhotoRef, instead: boolean) => {
    try {
      await deviceStore.put([[KEYS.photo(photo.id), content]]);
    } catch (error) {
      return outbox.cannotKeep(error);
    }
    change((before) => ({ ...before, photos: [...before.photos.filter(({ place }) => !instead || place !== photo.place), photo] }));
  };
  const photoOf = (place: string, name: string, mediaType: PhotoRef['mediaType'], bytes: number): PhotoRef => ({
    id: newUuid(),
    place,
    name,
    mediaType,
    bytes,
  });
  return {
    addPhoto: async (file, place) => {
      const content = await reducePhoto(file);
      if (content === undefined) return 'no picture';
      const name = `${file.name.replace(/\.\w+$/, '').slice(0, 100) || 'photograph'}.jpg`;
      await keep(content, photoOf(place, name, 'image/jpeg', content.byteLength), false);
      return 'added';
    },
    addDrawing: async (drawing, place) => {
      const content = await drawing.arrayBuffer();
      await keep(content, photoOf(place, `${place}.png`, 'image/png', content.byteLength), true);
    },
    removePhotos: (ids) => {
      change((before) => ({ ...before, photos: before.photos.filter(({ id }) => !ids.includes(id)) }));
      void deviceStore.remove(ids.map(KEYS.photo)).catch(() => undefined);
    },
  };
}
