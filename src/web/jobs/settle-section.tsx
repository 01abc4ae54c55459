import { useState } from 'react';
import { Link } from 'wouter';
import { api, type Schemas } from '../api/client.js';
import { SayDialog } from '../ui/say-dialog.js';
import { jobWords } from '../words/jobs.js';
import { ReportCard } from './report-card.js';

type Report = Schemas['JobReportView'];
type Choice = Schemas['SettleDto']['choice'];

interface SettleProps {
  readonly jobId: string;
  readonly report: Report;
  readonly first: Report | undefined;
  readonly timeZone: string;
}

/** A second report beside the first, or one that is held: the manager says what counts. */
export function SettleSection({ jobId, report, first, timeZone }: SettleProps) {
  const [choice, setChoice] = useState<Choice>();
  const isSecond = report.state === 'second';
  const names: Record<Choice, string> = {
    'keep the first': isSecond ? jobWords.keepFirst : jobWords.setAside,
    'take this one': jobWords.takeThis,
  };
  const choices: readonly Choice[] = isSecond ? ['keep the first', 'take this one'] : ['keep the first'];
  return (
    <section className="block">
      <h2>{isSecond ? jobWords.settleSecond : jobWords.settleHeld}</h2>
      <p className="aside">{isSecond ? jobWords.settleSecondNote : jobWords.settleHeldNote}</p>
      <div className="beside">
        {isSecond && first !== undefined && <ReportCard report={first} timeZone={timeZone} title={jobWords.first} />}
        <ReportCard report={report} timeZone={timeZone} {...(isSecond ? { title: jobWords.second } : {})} />
      </div>
      <div className="row no-print">
        {!isSecond && (
          <Link className="target" href={`/jobs/${jobId}/reports/${report.id}/correct`}>
            {jobWords.correct}
          </Link>
        )}
        {choices.map((each) => (
          <button key={each} type="button" onClick={() => setChoice(each)}>
            {names[each]}
          </button>
        ))}
      </div>
      {choice !== undefined && (
        <SayDialog
          title={names[choice]}
          button={names[choice]}
          say={{ label: jobWords.settleNote, hint: jobWords.settleNoteHint, need: jobWords.needSettleNote }}
          send={(note) => api.POST('/api/jobs/{jobId}/reports/{id}/settle', { params: { path: { jobId, id: report.id } }, body: { choice, note } })}
          onClose={() => setChoice(undefined)}
        />
      )}
    </section>
  );
}
