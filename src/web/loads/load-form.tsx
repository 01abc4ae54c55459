import { useQueryClient } from '@tanstack/react-query';
import { useId, useState } from 'react';
import { Link } from 'wouter';
import { query, type Schemas } from '../api/client.js';
import type { Problem } from '../api/problem.js';
import { Trouble } from '../ui/trouble.js';
import { loadReportWords } from '../words/load-report.js';
import { words } from '../words.js';
import { LoadReport } from './load-report.js';
import { sendFile } from './send-file.js';

const KINDS = ['samples', 'cycles', 'events'] as const;
type Kind = (typeof KINDS)[number];

interface Tried {
  readonly report: Schemas['LoadReportView'];
  readonly wasDry: boolean;
}

/** Nothing is written before the file was looked at and its problems shown. */
export function LoadForm({ skidId, timeZone }: { skidId: string; timeZone: string }) {
  const id = useId();
  const client = useQueryClient();
  const [kind, setKind] = useState<Kind>('samples');
  const [chosenProfile, setProfile] = useState<string | null>(null);
  const [file, setFile] = useState<File | null>(null);
  const [tried, setTried] = useState<Tried | null>(null);
  const [refusal, setRefusal] = useState<Problem | null>(null);
  const [attempt, setAttempt] = useState(0);
  const [isSending, setSending] = useState(false);
  const profiles = query.useQuery('get', '/api/log-profiles', { params: { query: { skidId, limit: 200 } } });
  const ofKind = profiles.data?.items.filter((profile) => profile.kind === kind) ?? [];
  const profileId = chosenProfile === '' || ofKind.some((profile) => profile.id === chosenProfile) ? (chosenProfile ?? '') : (ofKind[0]?.id ?? '');

  const send = async (dryRun: boolean, replaceDiffering = false) => {
    if (file === null) return;
    setSending(true);
    const answer = await sendFile({ skidId, kind, profileId, file, dryRun, replaceDiffering });
    setSending(false);
    setAttempt((count) => count + 1);
    setRefusal('refusal' in answer ? answer.refusal : null);
    setTried('report' in answer ? { report: answer.report, wasDry: dryRun } : null);
    if ('report' in answer && !dryRun) await client.invalidateQueries();
  };
  const change = (set: () => void) => {
    set();
    setTried(null);
    setRefusal(null);
  };
  return (
    <>
      {refusal !== null && (
        <Trouble
          title={refusal.title}
          troubles={refusal.errors.map(({ pointer, message }) => ({ message: `${pointer.replace(/^#\/?/, '')}: ${message}` }))}
          attempt={attempt}
        />
      )}
      <section className="block">
        <div className="fields">
          <div className="field">
            <label htmlFor={`${id}kind`}>{words.loads.kind}</label>
            <p className="hint" id={`${id}kind-hint`}>
              {words.loads.kindHints[kind]}
            </p>
            <select
              id={`${id}kind`}
              aria-describedby={`${id}kind-hint`}
              value={kind}
              onChange={(event) => change(() => setKind(KINDS.find((one) => one === event.target.value) ?? 'samples'))}
            >
              {KINDS.map((one) => (
                <option key={one} value={one}>
                  {words.loads.kinds[one]}
                </option>
              ))}
            </select>
          </div>
          <div className="field">
            <label htmlFor={`${id}profile`}>{words.loads.profile}</label>
            <p className="hint">
              <Link href={`/skids/${skidId}/profiles`}>{words.loads.profileHint}</Link>
            </p>
            <select id={`${id}profile`} value={profileId} onChange={(event) => change(() => setProfile(event.target.value))}>
              <option value="">{words.loads.noProfile}</option>
              {ofKind.map((profile) => (
                <option key={profile.id} value={profile.id}>
                  {profile.name}
                </option>
              ))}
            </select>
          </div>
          <div className="field">
            <label htmlFor={`${id}file`}>{words.loads.file}</label>
            <p className="hint" id={`${id}file-hint`}>
              {words.loads.fileHint}
            </p>
            <input
              id={`${id}file`}
              type="file"
              aria-describedby={`${id}file-hint`}
              onChange={(event) => change(() => setFile(event.target.files?.[0] ?? null))}
            />
          </div>
        </div>
        <div className="row">
          <button type="button" disabled={isSending || file === null} onClick={() => void send(true)}>
            {loadReportWords.tryIt}
          </button>
          <button type="button" className="main-button" disabled={isSending || tried?.wasDry !== true} onClick={() => void send(false)}>
            {words.loads.load}
          </button>
          <span role="status" className="hint">
            {isSending ? loadReportWords.reading : file === null ? words.loads.chooseFile : tried === null ? words.loads.tryFirst : ''}
          </span>
        </div>
      </section>
      {tried !== null && (
        <section className="block" aria-labelledby={`${id}answer`}>
          <div role="status">
            <h2 id={`${id}answer`}>{tried.wasDry ? loadReportWords.dry : loadReportWords.done}</h2>
          </div>
          {tried.report.differing > tried.report.replaced && (
            <div className="note-box">
              <p>{loadReportWords.differs}</p>
              {!tried.wasDry && (
                <p>
                  <button type="button" disabled={isSending} onClick={() => void send(false, true)}>
                    {loadReportWords.replace}
                  </button>
                </p>
              )}
            </div>
          )}
          <LoadReport report={tried.report} timeZone={timeZone} />
        </section>
      )}
    </>
  );
}
