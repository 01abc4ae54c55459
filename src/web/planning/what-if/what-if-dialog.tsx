import { useEffect, useState } from 'react';
import { api, type Schemas } from '../../api/client.js';
import { siteToday } from '../../site-time.js';
import { Dialog } from '../../ui/dialog.js';
import { useEntries } from '../../ui/use-entries.js';
import { weekday } from '../../visits/weekday.js';
import { whatIfWords as said } from '../../words/what-if.js';
import { useStoppable } from '../use-stoppable.js';
import { WhatIfAnswer } from './what-if-answer.js';
import { checkWhatIf, NOTHING_ASKED, type WhatIfEntries, whatIfBody, whatIfField, workToDefer } from './what-if-fields.js';
import { WhatIfForm } from './what-if-form.js';

interface WhatIfProps {
  readonly plan: Schemas['PlanView'];
  readonly people: readonly Schemas['PersonPlanningView'][];
}

/** Asks what would be if somebody more were there or work came later, and shows both plans beside each other. It changes nothing. */
export function WhatIfDialog({ onClose, ...about }: WhatIfProps & { onClose: () => void }) {
  return (
    <Dialog title={said.title} onClose={onClose}>
      {(close) => <Asking {...about} close={close} />}
    </Dialog>
  );
}

function Asking({ plan, people, close }: WhatIfProps & { close: () => void }) {
  const [answer, setAnswer] = useState<{ readonly asked: string; readonly view: Schemas['WhatIfView'] }>();
  const [wasStopped, setStopped] = useState(false);
  const { send, stop } = useStoppable();
  const able = people.filter(({ latitude, shiftFrom }) => latitude !== null && shiftFrom !== null);
  const works = workToDefer(plan);
  const form = useEntries({
    start: NOTHING_ASKED,
    check: checkWhatIf,
    fieldAt: whatIfField,
    send: (entries) => {
      setStopped(false);
      const body = whatIfBody(entries, plan, { people, today: siteToday(Date.now(), 'UTC') });
      return send((signal) => api.POST('/api/plans/what-if', { body, signal }));
    },
    onDone: (view) => {
      if (view === undefined) return setStopped(true);
      setAnswer({ asked: askedInWords(form.entries), view });
    },
  });
  // Whoever closes the dialog waits for no answer.
  useEffect(() => stop, [stop]);

  const nameOf = (id: string) => people.find(({ personId }) => personId === id)?.name ?? '';
  const askedInWords = ({ kind, likeId, workId, from, laterDays, skillsLikeId }: WhatIfEntries): string => {
    if (kind === 'work') return said.asked.work(works.find(({ id }) => id === workId)?.text ?? '', weekday(from));
    return kind === 'all' ? said.asked.all(Number(laterDays)) : said.asked.more(nameOf(likeId), nameOf(skillsLikeId));
  };
  if (answer !== undefined) return <WhatIfAnswer {...answer} onAgain={() => setAnswer(undefined)} close={close} />;
  return <WhatIfForm form={form} people={able} works={works} wasStopped={wasStopped} onStop={stop} close={close} />;
}
