import '../styles/plan.css';
import { useState } from 'react';
import { Link } from 'wouter';
import type { Schemas } from '../api/client.js';
import { visitWords } from '../words/visits.js';
import { judgeChosen } from './chosen-work.js';
import { PlanDialog } from './plan-dialog.js';
import type { Chosen } from './use-chosen.js';
import { weekday } from './weekday.js';

type Planned = Schemas['VisitDetailView'];

/** Under a list whose lines can be ticked: what is ticked, and the visit that can be made of it. */
export function PlanBar({ chosen, kind, hint }: { chosen: Chosen; kind: 'dues' | 'jobs'; hint: string }) {
  const [isOpen, setOpen] = useState(false);
  const [planned, setPlanned] = useState<Planned>();
  const judged = judgeChosen(chosen.chosen);
  const said =
    judged.kind === 'sites'
      ? visitWords.chosenSites(judged.sites)
      : judged.kind === 'none'
        ? hint
        : visitWords.chosenAt(chosen.chosen.length, judged.first.siteName);
  return (
    <div className="plan-bar no-print">
      <p role="status">
        {planned === undefined || judged.kind !== 'none' ? (
          said
        ) : (
          <>
            {visitWords.planned(planned.no, planned.siteName, weekday(planned.onDay), planned.startTime)}{' '}
            <Link href={`/visits/${planned.id}`}>{visitWords.toVisit}</Link>
          </>
        )}
      </p>
      <button type="button" className="main-button" disabled={judged.kind !== 'one site'} onClick={() => setOpen(true)}>
        {visitWords.plan}
      </button>
      {chosen.chosen.length > 0 && (
        <button type="button" onClick={chosen.clear}>
          {visitWords.clear}
        </button>
      )}
      {isOpen && judged.kind === 'one site' && (
        <PlanDialog
          work={chosen.chosen}
          first={judged.first}
          kind={kind}
          onClose={() => setOpen(false)}
          onPlanned={(visit) => {
            setPlanned(visit);
            setOpen(false);
            chosen.clear();
          }}
        />
      )}
    </div>
  );
}
