import { useState } from 'react';
import { api, type Schemas } from '../api/client.js';
import { SayDialog } from '../ui/say-dialog.js';
import { words } from '../words.js';
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
    'keep the first': isSecond ? words.jobs.keepFirst : words.jobs.setAside,
    'take this one': words.jobs.takeThis,
  };
  const choices: readonly Choice[] = isSecond ? ['keep the first', 'take this one'] : ['keep the first'];
  return (
    <section className="block">
      <h2>{isSecond ? words.jobs.settleSecond : words.jobs.settleHeld}</h2>
      <p className="aside">{isSecond ? words.jobs.settleSecondNote : words.jobs.settleHeldNote}</p>
      <div className="beside">
        {isSecond && first !== undefined && <ReportCard report={first} timeZone={timeZone} title={words.jobs.first} />}
        <ReportCard report={report} timeZone={timeZone} {...(isSecond ? { title: words.jobs.second } : {})} />
      </div>
      <div className="row no-print">
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
          say={{ label: words.jobs.settleNote, hint: words.jobs.settleNoteHint, need: words.jobs.needSettleNote }}
          send={(note) => api.POST('/api/jobs/{jobId}/reports/{id}/settle', { params: { path: { jobId, id: report.id } }, body: { choice, note } })}
          onClose={() => setChoice(undefined)}
        />
      )}
    </section>
  );
}
