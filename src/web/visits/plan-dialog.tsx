import { useQueryClient } from '@tanstack/react-query';
import { useState } from 'react';
import { api, query, type Schemas } from '../api/client.js';
import { siteToday } from '../site-time.js';
import { Dialog } from '../ui/dialog.js';
import { Field } from '../ui/field.js';
import { Failed, Loading } from '../ui/states.js';
import { Trouble } from '../ui/trouble.js';
import { useEntries } from '../ui/use-entries.js';
import { useRequestKey } from '../ui/use-request-key.js';
import { visitWords } from '../words/visits.js';
import { words } from '../words.js';
import type { WorkChosen } from './chosen-work.js';
import { CrewField } from './crew-field.js';
import { useCrew, useLastThere } from './use-crew.js';
import { weekday } from './weekday.js';
import { dayProposed, whoGoes } from './who-goes.js';

interface PlanProps {
  readonly work: readonly WorkChosen[];
  readonly first: WorkChosen;
  readonly kind: 'dues' | 'jobs';
  readonly onPlanned: (visit: Schemas['VisitDetailView'] | undefined) => void;
}

const START = '08:00';

/** Day, time and people of a new visit, with all three proposed, so that one press of a button plans it. */
export function PlanDialog({ onClose, ...plan }: PlanProps & { onClose: () => void }) {
  const skid = query.useQuery('get', '/api/skids/{id}', { params: { path: { id: plan.first.skidId } } });
  return (
    <Dialog title={visitWords.planAt(plan.first.siteName)} onClose={onClose}>
      {(close) =>
        skid.data !== undefined ? (
          <PlanForm {...plan} siteId={skid.data.siteId} timeZone={skid.data.timeZone} close={close} />
        ) : skid.isError ? (
          <Failed what={words.skid.what} error={skid.error} again={() => void skid.refetch()} />
        ) : (
          <Loading what={words.skid.what} />
        )
      }
    </Dialog>
  );
}

function PlanForm({ work, kind, siteId, timeZone, close, onPlanned }: Omit<PlanProps, 'first'> & { siteId: string; timeZone: string; close: () => void }) {
  const client = useQueryClient();
  const keyOf = useRequestKey();
  const [today] = useState(() => siteToday(Date.now(), timeZone));
  const { day, best } = dayProposed(
    work.map(({ bestOn }) => bestOn),
    today,
  );
  const [picked, setPicked] = useState<readonly string[]>();
  const lastThere = useLastThere(siteId, today);
  const form = useEntries({
    start: { onDay: day, startTime: START, personIds: '' },
    check: ({ onDay, startTime }) => ({
      ...(onDay === '' ? { onDay: visitWords.needDay } : {}),
      ...(startTime === '' ? { startTime: visitWords.needTime } : {}),
      ...(going.length === 0 ? { personIds: visitWords.needPeople } : {}),
    }),
    fieldAt: (pointer) => pointer.split('/')[1] ?? pointer,
    send: ({ onDay, startTime }) => {
      const ids = work.map(({ id }) => id);
      const body = { siteId, onDay, startTime, personIds: [...going], ...(kind === 'dues' ? { dueIds: ids } : { jobIds: ids }) };
      return api.POST('/api/visits', { body, params: { header: keyOf(body) } });
    },
    onDone: (visit) => {
      close();
      onPlanned(visit);
      void client.invalidateQueries();
    },
  });
  const crew = useCrew(form.entries.onDay);
  const going = picked ?? (crew === undefined || lastThere === undefined ? [] : whoGoes(crew, lastThere));
  const people = form.field('personIds');
  return (
    <form noValidate onSubmit={form.submit}>
      <Trouble troubles={form.troubles} attempt={form.attempt} />
      <div className="fields">
        <Field {...form.field('onDay')} label={visitWords.day} hint={hintOf(best, today)}>
          {(props) => <input {...props} {...form.control('onDay')} type="date" />}
        </Field>
        <Field {...form.field('startTime')} label={visitWords.start} hint={visitWords.startHint(timeZone)}>
          {(props) => <input {...props} {...form.control('startTime')} type="time" />}
        </Field>
      </div>
      {crew === undefined || lastThere === undefined ? (
        <Loading what={words.people.what} />
      ) : (
        <CrewField {...people} crew={crew} chosen={going} lastThere={lastThere} onChange={setPicked} />
      )}
      <div className="row">
        <button type="submit" className="main-button" disabled={form.isSending || crew === undefined}>
          {visitWords.planNow}
        </button>
        <button type="button" onClick={close}>
          {words.cancel}
        </button>
      </div>
    </form>
  );
}

const hintOf = (best: string | null, today: string) =>
  best === null ? visitWords.dayHint : best < today ? visitWords.bestPassed(weekday(best)) : visitWords.bestDay(weekday(best));
