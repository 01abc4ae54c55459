import { useState } from 'react';
import { Link } from 'wouter';
import { api, type Schemas } from '../api/client.js';
import { useMay } from '../session/session.js';
import { SayDialog } from '../ui/say-dialog.js';
import { visitWords } from '../words/visits.js';
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
          {visitWords.shift}
        </button>
      )}
      {may.manage && visit.state === 'planned' && (
        <button type="button" className="main-button" onClick={() => setOpen('promise')}>
          {visitWords.promise}
        </button>
      )}
      {may.manage && isToCome && (
        <button type="button" onClick={() => setOpen('call off')}>
          {visitWords.callOff}
        </button>
      )}
      <Link className="target" href={`/visits/${visit.id}/kit`}>
        {visitWords.kit.toPrint}
      </Link>
      <a className="target" href={`/api/visits/${visit.id}/report.pdf`}>
        {visitWords.pdf}
      </a>
      {open === 'shift' && <ShiftDialog visit={visit} onClose={close} />}
      {open === 'promise' && (
        <SayDialog
          title={visitWords.promiseAsk(weekday(visit.onDay), visit.startTime)}
          button={visitWords.promiseNow}
          send={() => api.POST('/api/visits/{id}/promise', { params: { path } })}
          onClose={close}
        >
          <p>{visitWords.promiseNote}</p>
        </SayDialog>
      )}
      {open === 'call off' && (
        <SayDialog
          title={visitWords.callOffAsk(visit.no)}
          button={visitWords.callOffNow}
          say={{
            label: visitWords.reason,
            need: visitWords.needReason,
            ...(visit.state === 'promised' ? { hint: visitWords.reasonToClient } : {}),
          }}
          send={(reason) => api.POST('/api/visits/{id}/call-off', { params: { path }, body: { reason } })}
          onClose={close}
        >
          <p>{visitWords.callOffNote}</p>
        </SayDialog>
      )}
    </div>
  );
}
