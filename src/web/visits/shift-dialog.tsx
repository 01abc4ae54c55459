import { useQuery, useQueryClient } from '@tanstack/react-query';
import { useState } from 'react';
import { api, type Schemas } from '../api/client.js';
import { ifMatch } from '../api/if-match.js';
import { problemOf } from '../api/problem.js';
import { minutes as inWords } from '../format.js';
import { Dialog } from '../ui/dialog.js';
import { Field } from '../ui/field.js';
import { Loading } from '../ui/states.js';
import { Trouble } from '../ui/trouble.js';
import { useEntries } from '../ui/use-entries.js';
import { useSettled } from '../ui/use-settled.js';
import { visitWords } from '../words/visits.js';
import { words } from '../words.js';
import { Consequences } from './consequences.js';
import { CrewField } from './crew-field.js';
import { isWholeMinutes, movesPromise, shiftChange } from './shift-change.js';
import { useCrew } from './use-crew.js';
import { weekday } from './weekday.js';

type Visit = Schemas['VisitDetailView'];

/** Another day, time or crew; what follows is shown before anything is changed. */
export function ShiftDialog({ visit, onClose }: { visit: Visit; onClose: () => void }) {
  return (
    <Dialog title={visitWords.shiftTitle(visit.no)} onClose={onClose}>
      {(close) => <ShiftForm visit={visit} close={close} />}
    </Dialog>
  );
}

/** The form of it, for a dialog that says more. */
export function ShiftForm({ visit, close }: { visit: Visit; close: () => void }) {
  const client = useQueryClient();
  const [personIds, setPersonIds] = useState<readonly string[]>(() => visit.people.map(({ personId }) => personId));
  const form = useEntries({
    start: { onDay: visit.onDay, startTime: visit.startTime, minutes: String(visit.minutes), tellClient: '', personIds: '' },
    check: (entries) => ({
      ...(entries.onDay === '' ? { onDay: visitWords.needDay } : {}),
      ...(entries.startTime === '' ? { startTime: visitWords.needTime } : {}),
      ...(isWholeMinutes(entries.minutes) ? {} : { minutes: visitWords.badMinutes }),
      ...(movesPromise(visit, entries) && entries.tellClient.trim() === '' ? { tellClient: visitWords.needTell } : {}),
      ...(personIds.length === 0 ? { personIds: visitWords.needPeople } : {}),
    }),
    fieldAt: (pointer) => pointer.split('/')[1] ?? pointer,
    send: (entries) =>
      api.PATCH('/api/visits/{id}', {
        params: { path: { id: visit.id } },
        headers: ifMatch(visit),
        body: shiftChange(visit, entries, personIds),
      }),
    onDone: () => {
      close();
      void client.invalidateQueries();
    },
  });
  const crew = useCrew(form.entries.onDay, visit.id);
  const change = shiftChange(visit, form.entries, personIds);
  const isMovable = visit.state !== 'under way';
  return (
    <form noValidate onSubmit={form.submit}>
      <Trouble troubles={form.troubles} attempt={form.attempt} />
      <div className="fields">
        {isMovable && (
          <>
            <Field {...form.field('onDay')} label={visitWords.day} hint={visitWords.dayHint}>
              {(props) => <input {...props} {...form.control('onDay')} type="date" />}
            </Field>
            <Field {...form.field('startTime')} label={visitWords.start} hint={visitWords.startHint(visit.timeZone)}>
              {(props) => <input {...props} {...form.control('startTime')} type="time" />}
            </Field>
          </>
        )}
        <Field {...form.field('minutes')} label={visitWords.minutes} hint={visitWords.minutesHint(inWords(visit.minutes))}>
          {(props) => <input {...props} {...form.control('minutes')} className="short" inputMode="numeric" autoComplete="off" />}
        </Field>
      </div>
      {crew === undefined ? (
        <Loading what={words.people.what} />
      ) : (
        <CrewField {...form.field('personIds')} crew={crew} chosen={personIds} onChange={setPersonIds} />
      )}
      {movesPromise(visit, form.entries) && (
        <Field {...form.field('tellClient')} label={visitWords.tellClient} hint={visitWords.tellClientHint(weekday(visit.onDay), visit.startTime)}>
          {(props) => <textarea {...props} {...form.control('tellClient')} rows={2} />}
        </Field>
      )}
      <WhatFollows visitId={visit.id} change={change} />
      <div className="row">
        <button type="submit" className="main-button" disabled={form.isSending || Object.keys(change).length === 0}>
          {visitWords.shiftSave}
        </button>
        <button type="button" onClick={close}>
          {words.cancel}
        </button>
      </div>
    </form>
  );
}

/** Asked of the service as the fields change. */
function WhatFollows({ visitId, change: { tellClient: _told, ...change } }: { visitId: string; change: Schemas['VisitEditDto'] }) {
  const asked = useSettled(JSON.stringify(change));
  const isSound = asked !== '{}' && change.onDay !== '' && change.startTime !== '' && !Number.isNaN(change.minutes) && change.personIds?.length !== 0;
  const check = useQuery({
    queryKey: ['visit check', visitId, asked],
    enabled: isSound,
    placeholderData: (before: Schemas['VisitCheckView'] | undefined) => before,
    queryFn: async () => {
      const body = JSON.parse(asked) as Schemas['VisitEditDto'];
      const { data, error } = await api.POST('/api/visits/{id}/check', { params: { path: { id: visitId } }, body });
      if (data === undefined) throw error;
      return data;
    },
  });
  return (
    <div className="follows" role="status">
      {asked === '{}' ? (
        <p className="aside">{visitWords.nothingChanged}</p>
      ) : check.data !== undefined ? (
        // What is promised stands beside the field that asks for the reason.
        <Consequences list={check.data.consequences.filter(({ about }) => about !== 'promise')} />
      ) : (
        <p className="aside">{check.isError ? problemOf(check.error).title : visitWords.checking}</p>
      )}
    </div>
  );
}
