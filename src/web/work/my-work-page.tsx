import { problemOf } from '../api/problem.js';
import { moment, day as written } from '../format.js';
import { useUnsent } from '../offline/device-outbox.js';
import type { KeptAnswer, Parcel } from '../offline/parcel.js';
import { useSession } from '../session/session.js';
import { addDays, siteToday } from '../site-time.js';
import { PageHead } from '../ui/page-head.js';
import { Empty, Failed, Loading } from '../ui/states.js';
import { workWords } from '../words/work.js';
import { DeviceNotes } from './device-notes.js';
import { JobLink, type JobMark } from './job-link.js';
import type { VisitAhead } from './sheet-types.js';
import { UnsentParcels } from './unsent-parcels.js';
import { useKeptWork } from './use-kept-work.js';
import { type KeptSheets, useSheets } from './use-sheets.js';
import { VisitCard } from './visit-card.js';

const HERE = Intl.DateTimeFormat().resolvedOptions().timeZone;

/** The visits of the coming days with their sheets, as this device has them, with or without signal. */
export default function MyWorkPage() {
  const { id } = useSession();
  const { found, isLooking, isFetching, error, fetchAgain } = useSheets();
  const { parcels } = useUnsent();
  const { drafts, answers } = useKeptWork(id);
  const own = parcels.filter(({ personId }) => personId === id);
  const markOf = (jobId: string) =>
    jobMark(
      jobId,
      own,
      answers,
      drafts.map((draft) => draft.jobId),
    );
  const listed = found?.sheets.visits.flatMap(({ jobs }) => jobs.map(({ jobId }) => jobId)) ?? [];
  const elsewhere = drafts.filter(({ jobId }) => !listed.includes(jobId) && own.every((parcel) => parcel.jobId !== jobId));
  return (
    <div className="narrow work">
      <PageHead title={workWords.title} />
      <DeviceNotes asks />
      <UnsentParcels parcels={own} />
      <div className="fetched">
        <p className="hint" role="status">
          {isFetching ? workWords.fetching : found == null ? '' : workWords.fetched(moment(found.fetchedAt, HERE))}
        </p>
        <button type="button" disabled={isFetching} onClick={fetchAgain}>
          {workWords.fetchAgain}
        </button>
      </div>
      {error !== null &&
        !isFetching &&
        (problemOf(error).status === 0 ? found != null && <p className="note-box">{workWords.notFetched}</p> : <Failed what={workWords.what} error={error} />)}
      {found == null ? (
        isLooking || isFetching ? (
          <Loading what={workWords.what} />
        ) : (
          <Empty title={workWords.noneYet}>{workWords.noneYetWhy}</Empty>
        )
      ) : (
        <Days kept={found} markOf={markOf} />
      )}
      {elsewhere.length > 0 && (
        <section className="block" aria-labelledby="begun">
          <h2 id="begun">{workWords.begunTitle}</h2>
          <ul className="jobs">
            {elsewhere.map(({ jobId, sheet }) => (
              <JobLink
                key={jobId}
                jobId={jobId}
                title={workWords.job(sheet.no, sheet.title)}
                place={`${sheet.skidName}, ${sheet.siteName}`}
                mark={markOf(jobId)}
              />
            ))}
          </ul>
        </section>
      )}
      <Answers answers={answers.filter(({ jobId }) => !listed.includes(jobId))} />
    </div>
  );
}

function Days({ kept, markOf }: { kept: KeptSheets; markOf: (jobId: string) => JobMark | undefined }) {
  const { visits } = kept.sheets;
  if (visits.length === 0) return <Empty title={workWords.none}>{workWords.noneWhy}</Empty>;
  const days = [...new Set(visits.map(({ onDay }) => onDay))].toSorted();
  return days.map((onDay) => {
    const those = visits.filter((visit) => visit.onDay === onDay).toSorted((one, other) => one.startTime.localeCompare(other.startTime));
    return (
      <section key={onDay} className="day" aria-label={nameOf(onDay, those)}>
        <h2>{nameOf(onDay, those)}</h2>
        {those.map((visit) => (
          <VisitCard key={visit.id} visit={visit} markOf={markOf} />
        ))}
      </section>
    );
  });
}

/** Today and tomorrow are days at the site. */
function nameOf(onDay: string, [first]: readonly VisitAhead[]): string {
  const today = siteToday(Date.now(), first?.timeZone ?? HERE);
  if (onDay === today) return `${workWords.today}, ${written(onDay)}`;
  return onDay === addDays(today, 1) ? `${workWords.tomorrow}, ${written(onDay)}` : written(onDay);
}

function jobMark(jobId: string, parcels: readonly Parcel[], answers: readonly KeptAnswer[], begun: readonly string[]): JobMark | undefined {
  const parcel = parcels.find((one) => one.jobId === jobId && !one.isStored);
  if (parcel !== undefined) return parcel.refused === null ? 'waits' : 'refused';
  const answer = answers.find((one) => one.jobId === jobId);
  if (answer !== undefined) return answer.state === 'held' ? 'held' : 'sent';
  return begun.includes(jobId) ? 'begun' : undefined;
}

function Answers({ answers }: { answers: readonly KeptAnswer[] }) {
  if (answers.length === 0) return null;
  return (
    <section className="block" aria-labelledby="sent-from-here">
      <h2 id="sent-from-here">{workWords.answersTitle}</h2>
      <ul className="jobs">
        {answers.map(({ jobId, title, at, state }) => (
          <JobLink key={jobId} jobId={jobId} title={title} place={moment(at, HERE)} mark={state === 'held' ? 'held' : 'sent'} />
        ))}
      </ul>
    </section>
  );
}
