import { Link } from 'wouter';
import { moment } from '../format.js';
import { PageHead } from '../ui/page-head.js';
import { Empty, Loading } from '../ui/states.js';
import { workWords } from '../words/work.js';
import { DeviceNotes } from './device-notes.js';
import { SheetOnItsWay } from './sheet-on-its-way.js';
import { SheetPaper } from './sheet-paper.js';
import { useJobSheet } from './use-job-sheet.js';

/** The sheet of one job on this device: to fill in, on its way, or answered. */
export default function JobSheetPage({ jobId }: { jobId: string }) {
  const held = useJobSheet(jobId);
  const { draft, parcel, answer } = held;
  if (held.isLooking) return <Loading what={workWords.sheet} />;
  const sheet = draft?.sheet;
  const title = sheet === undefined ? (parcel?.title ?? answer?.title ?? workWords.sheet) : workWords.job(sheet.no, sheet.title);
  return (
    <div className="narrow work">
      <PageHead
        title={title}
        over={
          <>
            <Link href="/work">{workWords.title}</Link>
            {sheet !== undefined && `, ${sheet.skidName}, ${sheet.siteName}`}
          </>
        }
      />
      <DeviceNotes />
      {parcel !== undefined && <SheetOnItsWay parcel={parcel} takeBack={held.takeBack} />}
      {parcel === undefined && answer !== undefined && (
        <section className={answer.state === 'counts' ? 'block' : 'note-box'} aria-labelledby="answer">
          <h2 id="answer">{workWords.sent}</h2>
          <p>{workWords.answer[answer.state as keyof typeof workWords.answer] ?? workWords.answerOther(answer.state)}</p>
          {answer.state === 'second' && answer.problems.map(({ message }) => <p key={message}>{message}</p>)}
          <p className="hint">{moment(answer.at, sheet?.timeZone ?? Intl.DateTimeFormat().resolvedOptions().timeZone)}</p>
          {held.startAnother !== undefined && (
            <button type="button" onClick={held.startAnother}>
              {workWords.another}
            </button>
          )}
        </section>
      )}
      {parcel === undefined && draft !== undefined && <SheetPaper key={draft.reportId} draft={draft} change={held.change} saved={held.saved} />}
      {parcel === undefined && draft === undefined && answer === undefined && <Empty title={workWords.unknown}>{workWords.unknownWhy}</Empty>}
    </div>
  );
}
