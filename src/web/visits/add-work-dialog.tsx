import { type FormEvent, useState } from 'react';
import { api, query, type Schemas } from '../api/client.js';
import { Dialog } from '../ui/dialog.js';
import { Refusal } from '../ui/refusal.js';
import { Loaded } from '../ui/states.js';
import { useCall } from '../ui/use-call.js';
import { useRequestKey } from '../ui/use-request-key.js';
import { jobWords } from '../words/jobs.js';
import { visitWords } from '../words/visits.js';
import { words } from '../words.js';
import { weekday } from './weekday.js';

type Visit = Schemas['VisitDetailView'];

interface Line {
  readonly id: string;
  readonly name: string;
  readonly more: string;
}

const MOST = 100;

/** What else waits at the site: jobs that no visit holds, and lines of the due list that no job holds. */
export function AddWorkDialog({ visit, onClose }: { visit: Visit; onClose: () => void }) {
  return (
    <Dialog title={visitWords.addWork} onClose={onClose}>
      {(close) => <AddWork visit={visit} close={close} />}
    </Dialog>
  );
}

function AddWork({ visit, close }: { visit: Visit; close: () => void }) {
  const { siteId, siteName, clientId } = visit;
  const jobs = query.useQuery('get', '/api/jobs', { params: { query: { siteId, unplanned: 'true', state: 'to do', limit: MOST } } });
  const dues = query.useQuery('get', '/api/dues', { params: { query: { clientId, find: siteName, limit: MOST } } });
  return (
    <Loaded of={jobs} what={visitWords.unplannedWhat}>
      {(jobList) => (
        <Loaded of={dues} what={words.dues.what}>
          {(dueList) => (
            <AddForm
              visitId={visit.id}
              close={close}
              jobs={jobList.items.map((job) => ({ id: job.id, name: jobWords.named(job.no, job.title), more: moreOf(job) }))}
              dues={dueList.items
                .filter((due) => due.siteName === siteName && due.jobId === null)
                .map((due) => ({ id: due.id, name: [due.task, due.positionName].filter(Boolean).join(', '), more: moreOf(due) }))}
            />
          )}
        </Loaded>
      )}
    </Loaded>
  );
}

const moreOf = ({ skidName, bestOn }: { skidName: string; bestOn: string | null }) =>
  bestOn === null ? skidName : `${skidName}, ${visitWords.bestOn(weekday(bestOn))}`;

interface AddFormProps {
  readonly visitId: string;
  readonly jobs: readonly Line[];
  readonly dues: readonly Line[];
  readonly close: () => void;
}

function AddForm({ visitId, jobs, dues, close }: AddFormProps) {
  const keyOf = useRequestKey();
  const { call, isBusy, problem } = useCall();
  const [chosen, setChosen] = useState<ReadonlySet<string>>(new Set());
  const toggle = (id: string) => setChosen((before) => (before.has(id) ? new Set([...before].filter((each) => each !== id)) : new Set([...before, id])));
  const idsOf = (lines: readonly Line[]) => lines.map(({ id }) => id).filter((id) => chosen.has(id));
  const submit = (event: FormEvent) => {
    event.preventDefault();
    const body = { jobIds: idsOf(jobs), dueIds: idsOf(dues) };
    void call(() => api.POST('/api/visits/{id}/jobs', { params: { path: { id: visitId }, header: keyOf(body) }, body }), close);
  };
  return (
    <form noValidate onSubmit={submit}>
      <Refusal problem={problem} />
      {jobs.length + dues.length === 0 && <p>{visitWords.addNone}</p>}
      <Lines legend={visitWords.addJobs} lines={jobs} chosen={chosen} onToggle={toggle} />
      <Lines legend={visitWords.addDues} lines={dues} chosen={chosen} onToggle={toggle} />
      <div className="row">
        <button type="submit" className="main-button" disabled={isBusy || chosen.size === 0}>
          {visitWords.addNow}
        </button>
        <button type="button" onClick={close}>
          {words.cancel}
        </button>
      </div>
    </form>
  );
}

interface LinesProps {
  readonly legend: string;
  readonly lines: readonly Line[];
  readonly chosen: ReadonlySet<string>;
  readonly onToggle: (id: string) => void;
}

function Lines({ legend, lines, chosen, onToggle }: LinesProps) {
  if (lines.length === 0) return null;
  return (
    <fieldset className="group crew">
      <legend>{legend}</legend>
      {lines.map(({ id, name, more }) => (
        <label key={id} className="tick">
          <input type="checkbox" checked={chosen.has(id)} onChange={() => onToggle(id)} />
          <span>
            {name}
            <small>{more}</small>
          </span>
        </label>
      ))}
    </fieldset>
  );
}
