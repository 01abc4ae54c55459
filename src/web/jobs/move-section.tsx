import { useState } from 'react';
import { type JobMove, movesOf } from '../../shared/job-moves.js';
import { api, type Schemas } from '../api/client.js';
import { useSession } from '../session/session.js';
import { Refusal } from '../ui/refusal.js';
import { SayDialog } from '../ui/say-dialog.js';
import { useCall } from '../ui/use-call.js';
import { jobWords } from '../words/jobs.js';

type Job = Schemas['JobDetailView'];

/** The moves that this person has from the state that the job is in; a report finishes it. */
export function MoveSection({ job }: { job: Job }) {
  const { role } = useSession();
  const { call, isBusy, problem } = useCall();
  const [asked, setAsked] = useState<JobMove>();
  const moves = role === 'client' ? [] : movesOf(job.state, role);
  if (moves.length === 0) return null;
  const send = (move: JobMove, note: string) => api.POST('/api/jobs/{id}/state', { params: { path: { id: job.id } }, body: { to: move.to, note } });
  return (
    <section className="block no-print">
      <h2>{jobWords.move}</h2>
      <Refusal problem={problem} />
      <div className="row">
        {moves.map((move) => (
          <button key={move.to} type="button" disabled={isBusy} onClick={() => (move.saying === null ? void call(() => send(move, '')) : setAsked(move))}>
            {jobWords.moves[move.to]}
          </button>
        ))}
        {job.state !== 'dropped' && <span className="hint">{jobWords.moveNote}</span>}
      </div>
      {asked !== undefined && <MoveDialog job={job} move={asked} send={(note) => send(asked, note)} onClose={() => setAsked(undefined)} />}
    </section>
  );
}

interface MoveDialogProps {
  readonly job: Job;
  readonly move: JobMove;
  readonly send: (note: string) => ReturnType<typeof api.POST>;
  readonly onClose: () => void;
}

function MoveDialog({ job, move: { to, saying }, send, onClose }: MoveDialogProps) {
  const label = jobWords.sayingOf(saying ?? '');
  return (
    <SayDialog
      title={`${jobWords.moves[to]}: ${jobWords.no(job.no)}`}
      button={jobWords.moves[to]}
      say={{ label, need: jobWords.need(label) }}
      send={send}
      onClose={onClose}
    />
  );
}
