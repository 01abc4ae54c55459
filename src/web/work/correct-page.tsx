import { useQueryClient } from '@tanstack/react-query';
import { useState } from 'react';
import { Link, useLocation } from 'wouter';
import { query, type Schemas } from '../api/client.js';
import { useSession } from '../session/session.js';
import { PageHead } from '../ui/page-head.js';
import { Empty, Loaded, Loading } from '../ui/states.js';
import { useUnits } from '../units-choice.js';
import { jobWords } from '../words/jobs.js';
import { workWords } from '../words/work.js';
import { type Draft, startDraft } from './draft.js';
import { fromReport } from './from-report.js';
import { refusedSheet } from './refused-sheet.js';
import { SheetPaper } from './sheet-paper.js';
import type { Sheet, SheetsAhead } from './sheet-types.js';
import { useSheetElsewhere, useSheets } from './use-sheets.js';

type Sent = Schemas['SentReportView'];

/** A sheet that is held, for the manager to correct: each problem stands beside its field. */
export default function CorrectSheetPage({ jobId, reportId }: { jobId: string; reportId: string }) {
  const sent = query.useQuery('get', '/api/jobs/{jobId}/reports/{id}', { params: { path: { jobId, id: reportId } } });
  const sheet = useSheetElsewhere(jobId, true);
  const { found, isFetching } = useSheets();
  return (
    <div className="narrow work">
      <PageHead title={jobWords.correct} over={<Link href={`/jobs/${jobId}`}>{jobWords.job}</Link>} />
      <Loaded of={sent} what={jobWords.heldSheet}>
        {(report) =>
          report.state !== 'held' ? (
            <Empty title={jobWords.notHeld}>{jobWords.notHeldWhy}</Empty>
          ) : (
            <Loaded of={sheet} what={workWords.sheet}>
              {(ofJob) =>
                found == null && isFetching ? (
                  <Loading what={workWords.sheet} />
                ) : (
                  <Correction sent={report} sheet={ofJob} places={found?.sheets.places ?? []} />
                )
              }
            </Loaded>
          )
        }
      </Loaded>
    </div>
  );
}

function Correction({ sent, sheet, places }: { sent: Sent; sheet: Sheet; places: SheetsAhead['places'] }) {
  const person = useSession();
  const client = useQueryClient();
  const { pressure, temperature } = useUnits();
  const [, go] = useLocation();
  const [draft, setDraft] = useState((): Draft => {
    const empty = startDraft({ reportId: sent.id, person, sheet, places, units: { pressure, temperature } });
    const asSent = fromReport(empty, sent.content);
    return { ...asSent, refused: refusedSheet(asSent, { title: '', errors: sent.problems }, true) };
  });
  return (
    <>
      <p className="note-box">{jobWords.correctNote(sent.by)}</p>
      <SheetPaper
        draft={draft}
        change={(make) => setDraft(make)}
        saved="no"
        onTaken={() => {
          void client.invalidateQueries();
          go(`/jobs/${draft.jobId}`);
        }}
      />
    </>
  );
}
