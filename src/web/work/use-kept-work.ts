import { useEffect, useState } from 'react';
import { useUnsent } from '../offline/device-outbox.js';
import { deviceStore } from '../offline/device-store.js';
import { allFrom, KEYS } from '../offline/kept-store.js';
import type { KeptAnswer } from '../offline/parcel.js';
import type { Draft } from './draft.js';

const KEPT_DAYS = 14;
const DAY_MS = 86_400_000;

/** What this device has of a person beside what waits: sheets that were begun, and what became of those that were sent. */
export function useKeptWork(personId: string): { readonly drafts: readonly Draft[]; readonly answers: readonly KeptAnswer[] } {
  const { parcels } = useUnsent();
  const [work, setWork] = useState<{ drafts: readonly Draft[]; answers: readonly KeptAnswer[] }>({ drafts: [], answers: [] });
  useEffect(() => {
    let isOld = false;
    const look = async () => {
      const [drafts, answers] = await Promise.all([
        allFrom<Draft>(deviceStore, KEYS.drafts(personId)),
        allFrom<KeptAnswer>(deviceStore, KEYS.answers(personId)),
      ]);
      const isPast = ({ at, state }: KeptAnswer) => state !== 'held' && Date.now() - Date.parse(at) > KEPT_DAYS * DAY_MS;
      await deviceStore.remove(answers.filter(isPast).map(({ jobId }) => KEYS.answer(personId, jobId)));
      if (!isOld) setWork({ drafts, answers: answers.filter((answer) => !isPast(answer)) });
    };
    look().catch(() => undefined); // storage may be switched off: then there is nothing
    return () => {
      isOld = true;
    };
  }, [personId, parcels]);
  return work;
}
