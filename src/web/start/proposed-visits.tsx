import { useQueryClient } from '@tanstack/react-query';
import { useRef, useState } from 'react';
import { api, query, type Schemas } from '../api/client.js';
import { day, minutes } from '../format.js';
import { Dialog } from '../ui/dialog.js';
import { Field } from '../ui/field.js';
import { SayDialog } from '../ui/say-dialog.js';
import { Trouble } from '../ui/trouble.js';
import { useEntries } from '../ui/use-entries.js';
import { answerWords as said } from '../words/visit-answers.js';
import { words } from '../words.js';

type Proposal = Schemas['ProposalView'];

/** Days that the client is asked about; nothing where none is. */
export function ProposedVisits() {
  const { data = [] } = query.useQuery('get', '/api/proposed-visits');
  if (data.length === 0) return null;
  return (
    <section className="block">
      <h2>{said.title}</h2>
      <p className="hint">{said.hint}</p>
      <ul className="plain part-of-site">
        {data.map((proposal) => (
          <li key={proposal.id}>
            <ProposedVisit proposal={proposal} />
          </li>
        ))}
      </ul>
    </section>
  );
}

function ProposedVisit({ proposal }: { proposal: Proposal }) {
  const [open, setOpen] = useState<'confirm' | 'decline'>();
  const { id, siteName, onDay, startTime, note, work, answer, answeredBy, reason, wishedDays } = proposal;
  const close = () => setOpen(undefined);
  return (
    <>
      <p>
        <strong>
          {siteName}: {said.at(day(onDay), startTime)}
        </strong>
        , {said.takes(minutes(proposal.minutes))}
      </p>
      {note !== '' && <p className="text">{note}</p>}
      {work.length > 0 && (
        <ul className="plain" aria-label={said.work}>
          {work.map(({ skidName, title }) => (
            <li key={`${skidName} ${title}`}>{said.workAt(skidName, title)}</li>
          ))}
        </ul>
      )}
      {answer === 'confirmed' && <p>{said.confirmed(answeredBy ?? '')}</p>}
      {answer === 'declined' && (
        <p>
          {said.declined(answeredBy ?? '', reason)} {wishedDays.length > 0 && said.wished(wishedDays.map(day).join(', '))}
        </p>
      )}
      <div className="row no-print">
        {answer !== 'confirmed' && (
          <button type="button" className="main-button" onClick={() => setOpen('confirm')}>
            {said.confirm}
            <span className="unseen">: {said.at(day(onDay), startTime)}</span>
          </button>
        )}
        <button type="button" onClick={() => setOpen('decline')}>
          {said.decline}
          <span className="unseen">: {said.at(day(onDay), startTime)}</span>
        </button>
      </div>
      {open === 'confirm' && (
        <SayDialog
          title={said.confirmAsk(day(onDay), startTime)}
          button={said.confirm}
          send={() => api.POST('/api/proposed-visits/{id}/confirm', { params: { path: { id } } })}
          onClose={close}
        >
          <p>{said.confirmNote}</p>
        </SayDialog>
      )}
      {open === 'decline' && (
        <Dialog title={said.declineAsk(day(onDay), startTime)} onClose={close}>
          {(shut) => <DeclineForm id={id} close={shut} />}
        </Dialog>
      )}
    </>
  );
}

const WISHES = ['first', 'second', 'third'] as const;

function DeclineForm({ id, close }: { id: string; close: () => void }) {
  const client = useQueryClient();
  /** Those that were filled in, in the order in which they were sent */
  const sent = useRef<readonly (typeof WISHES)[number][]>([]);
  const form = useEntries({
    start: { reason: '', first: '', second: '', third: '' },
    check: ({ reason }) => (reason.trim() === '' ? { reason: said.needReason } : {}),
    fieldAt: (pointer) => {
      const at = /wishedDays\/(\d+)/.exec(pointer)?.[1];
      return at === undefined ? pointer.replace(/^#?\//, '') : (sent.current[Number(at)] ?? 'first');
    },
    send: ({ reason, ...wishes }) => {
      sent.current = WISHES.filter((name, at) => wishes[name] !== '' && WISHES.findIndex((other) => wishes[other] === wishes[name]) === at);
      const wishedDays = sent.current.map((name) => wishes[name]);
      return api.POST('/api/proposed-visits/{id}/decline', { params: { path: { id } }, body: { reason: reason.trim(), wishedDays } });
    },
    onDone: () => {
      close();
      void client.invalidateQueries();
    },
  });
  return (
    <form noValidate onSubmit={form.submit}>
      <Trouble troubles={form.troubles} attempt={form.attempt} />
      <Field {...form.field('reason')} label={said.reason} hint={said.reasonHint}>
        {(props) => <textarea {...props} {...form.control('reason')} rows={3} />}
      </Field>
      {WISHES.map((name, at) => (
        <Field key={name} {...form.field(name)} label={said.wish(at)} hint={said.wishHint}>
          {(props) => <input {...props} {...form.control(name)} type="date" />}
        </Field>
      ))}
      <div className="row">
        <button type="submit" className="main-button" disabled={form.isSending}>
          {said.sendDecline}
        </button>
        <button type="button" onClick={close}>
          {words.cancel}
        </button>
      </div>
    </form>
  );
}
