import { useState } from 'react';
import { Link } from 'wouter';
import { api, type Schemas } from '../api/client.js';
import { useMay } from '../session/session.js';
import { SayDialog } from '../ui/say-dialog.js';
import { words } from '../words.js';
import { ShiftDialog } from './shift-dialog.js';
import { weekday } from './weekday.js';

type Visit = Schemas['VisitDetailView'];

/** What can be done with a visit in its state, and what can be printed of it. */
export function VisitActions({ visit }: { visit: Visit }) {
  const may = useMay();
  const [open, setOpen] = useState<'shift' | 'promise' | 'call off'>();
  const close = () => setOpen(undefined);
  const isToCome = visit.state === 'planned' || visit.state === 'promised';
  const path = { id: visit.id };
  return (
    <div className="row no-print">
      {may.manage && (isToCome || visit.state === 'under way') && (
        <button type="button" onClick={() => setOpen('shift')}>
          {words.visits.shift}
        </button>
      )}
      {may.manage && visit.state === 'planned' && (
        <button type="button" className="main-button" onClick={() => setOpen('promise')}>
          {words.visits.promise}
        </button>
      )}
      {may.manage && isToCome && (
        <button type="button" onClick={() => setOpen('call off')}>
          {words.visits.callOff}
        </button>
      )}
      <Link className="target" href={`/visits/${visit.id}/kit`}>
        {words.visits.kit.toPrint}
      </Link>
      <a className="target" href={`/api/visits/${visit.id}/report.pdf`}>
        {words.visits.pdf}
      </a>
      {open === 'shift' && <ShiftDialog visit={visit} onClose={close} />}
      {open === 'promise' && (
        <SayDialog
          title={words.visits.promiseAsk(weekday(visit.onDay), visit.startTime)}
          button={words.visits.promiseNow}
          send={() => api.POST('/api/visits/{id}/promise', { params: { path } })}
          onClose={close}
        >
          <p>{words.visits.promiseNote}</p>
        </SayDialog>
      )}
      {open === 'call off' && (
        <SayDialog
          title={words.visits.callOffAsk(visit.no)}
          button={words.visits.callOffNow}
          say={{
            label: words.visits.reason,
            need: words.visits.needReason,
            ...(visit.state === 'promised' ? { hint: words.visits.reasonToClient } : {}),
          }}
          send={(reason) => api.POST('/api/visits/{id}/call-off', { params: { path }, body: { reason } })}
          onClose={close}
        >
          <p>{words.visits.callOffNote}</p>
        </SayDialog>
      )}
    </div>
  );
}
