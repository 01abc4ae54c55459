import { useQueryClient } from '@tanstack/react-query';
import { useState } from 'react';
import { api } from '../api/client.js';
import { siteToday } from '../site-time.js';
import { Field } from '../ui/field.js';
import { Loading } from '../ui/states.js';
import { Trouble } from '../ui/trouble.js';
import { useEntries } from '../ui/use-entries.js';
import { useRequestKey } from '../ui/use-request-key.js';
import { CrewField } from '../visits/crew-field.js';
import { useCrew } from '../visits/use-crew.js';
import { weekday } from '../visits/weekday.js';
import { planWords } from '../words/plan.js';
import { words } from '../words.js';
import { againstMove } from './against-move.js';
import type { Line } from './lines.js';
import type { ShownPlan } from './shown-plan.js';

const ZONE = Intl.DateTimeFormat().resolvedOptions().timeZone;

interface OtherwiseProps {
  readonly line: Line;
  readonly plan: ShownPlan;
  readonly close: () => void;
}

/** Work that no visit holds yet, planned as a visit on another day, at another time or with other people. */
export function OtherwiseForm({ line: { siteId, day, startAt, workMinutes: minutes, people, work }, plan, close }: OtherwiseProps) {
  const client = useQueryClient();
  const keyOf = useRequestKey();
  const [personIds, setPersonIds] = useState<readonly string[]>(() => people.map(({ personId }) => personId));
  const [planned, setPlanned] = useState('');
  const idsOf = (kind: 'job' | 'due') => work.filter((one) => one.kind === kind).map(({ id }) => id);
  const form = useEntries({
    start: { onDay: day, startTime: startAt, personIds: '' },
    check: ({ onDay, startTime }) => ({
      ...(onDay === '' ? { onDay: planWords.needDay } : {}),
      ...(startTime === '' ? { startTime: planWords.needTime } : {}),
      ...(personIds.length === 0 ? { personIds: planWords.needPeople } : {}),
    }),
    fieldAt: (pointer) => pointer.split('/')[1] ?? pointer,
    send: ({ onDay, startTime }) => {
      const body = { siteId, onDay, startTime, personIds: [...personIds], minutes, jobIds: idsOf('job'), dueIds: idsOf('due') };
      return api.POST('/api/visits', { body, params: { header: keyOf(body) } });
    },
    onDone: (visit) => {
      if (visit !== undefined) setPlanned(planWords.planned(visit.no, visit.siteName, weekday(visit.onDay), visit.startTime));
      void client.invalidateQueries();
    },
  });
  const { onDay, startTime } = form.entries;
  const crew = useCrew(onDay);
  const stopIds = work.map(({ id }) => id);
  const against =
    onDay === '' || startTime === ''
      ? []
      : againstMove({ siteId, day: onDay, startTime, minutes, personIds, stopIds }, { ...plan, today: siteToday(Date.now(), ZONE) });
  if (planned !== '') {
    return (
      <>
        <p role="status">{planned}</p>
        <p className="row">
          <button type="button" className="main-button" onClick={close}>
            {planWords.close}
          </button>
        </p>
      </>
    );
  }
  return (
    <form noValidate onSubmit={form.submit}>
      <Trouble troubles={form.troubles} attempt={form.attempt} />
      <div className="fields">
        <Field {...form.field('onDay')} label={planWords.day}>
          {(props) => <input {...props} {...form.control('onDay')} type="date" />}
        </Field>
        <Field {...form.field('startTime')} label={planWords.start}>
          {(props) => <input {...props} {...form.control('startTime')} type="time" />}
        </Field>
      </div>
      {crew === undefined ? (
        <Loading what={words.people.what} />
      ) : (
        <CrewField {...form.field('personIds')} crew={crew} chosen={personIds} onChange={setPersonIds} />
      )}
      <div className="follows" role="status">
        {against.length === 0 ? (
          <p className="aside">{planWords.speaksNot}</p>
        ) : (
          <div className="note-box">
            <p>
              <strong>{planWords.speaks}</strong>
            </p>
            <ul className="plain">
              {against.map((sentence) => (
                <li key={sentence}>{sentence}.</li>
              ))}
            </ul>
          </div>
        )}
      </div>
      <div className="row">
        <button type="submit" className="main-button" disabled={form.isSending}>
          {planWords.planSo}
        </button>
        <button type="button" onClick={close}>
          {words.cancel}
        </button>
      </div>
    </form>
  );
}
