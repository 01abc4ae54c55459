import type { ReactNode } from 'react';
import { query } from '../api/client.js';
import { minutes as inWords } from '../format.js';
import { Dialog } from '../ui/dialog.js';
import { Loaded } from '../ui/states.js';
import { ClientSaid } from '../visits/client-said.js';
import { ShiftForm } from '../visits/shift-dialog.js';
import { weekday } from '../visits/weekday.js';
import { planWords } from '../words/plan.js';
import { visitWords } from '../words/visits.js';
import { minutesOf } from './drawing/tour-geometry.js';
import { limitInWords, limitsByLine } from './limits-by-line.js';
import { type Line, namesOf } from './lines.js';
import { OtherwiseForm } from './otherwise-form.js';
import { limitedStays, type ShownPlan } from './shown-plan.js';

interface LineDialogProps {
  readonly line: Line;
  /** With the tours of everybody */
  readonly plan: ShownPlan;
  readonly onClose: () => void;
}

/** Why a visit is where it is in the plan, and another day, time or people for it. */
export function LineDialog({ line, plan, onClose }: LineDialogProps) {
  const { siteName, day, startAt, endAt, people, work, visitId, promised } = line;
  return (
    <Dialog title={`${siteName}, ${weekday(day)}`} onClose={onClose}>
      {(close) => (
        <div className="of-line">
          <p>
            {startAt}–{endAt}, {namesOf(people)}
            {promised && `, ${planWords.promised}`}
            {visitId !== null && <ClientSaid visitId={visitId} />}
          </p>
          <ul className="plain">
            {work.map(({ id, text }) => (
              <li key={id}>{text}</li>
            ))}
          </ul>
          <h3>{planWords.whyHere}</h3>
          <p>{line.reason}</p>
          <ul className="plain">
            {alongTheTour(line, plan).map((sentence) => (
              <li key={sentence}>{sentence}</li>
            ))}
          </ul>
          <h3>{planWords.shift}</h3>
          <p className="hint">{planWords.shiftNote}</p>
          {visitId === null ? <OtherwiseForm line={line} plan={plan} close={close} /> : <ShiftOfVisit visitId={visitId} close={close} />}
        </div>
      )}
    </Dialog>
  );
}

function ShiftOfVisit({ visitId, close }: { visitId: string; close: () => void }): ReactNode {
  const visit = query.useQuery('get', '/api/visits/{id}', { params: { path: { id: visitId } } });
  return (
    <Loaded of={visit} what={visitWords.one}>
      {(found) => <ShiftForm visit={found} close={close} />}
    </Loaded>
  );
}

/** The way there, waiting, the work and the nearest limit, by the first tour that goes there. */
function alongTheTour(line: Line, plan: ShownPlan): string[] {
  const { travelMinutes, travelSource, workMinutes, promised, endAt } = line;
  const stays = plan.tours.flatMap((tour) => limitedStays(tour, plan)).filter((one) => one.line?.id === line.id);
  const waits = Math.round(Math.max(0, ...stays.map(({ stay }) => stay.start - stay.arrive)));
  return [
    planWords.way(inWords(travelMinutes), planWords.sources[travelSource]),
    ...(waits > 0 ? [planWords.waits(inWords(waits))] : []),
    planWords.takes(inWords(workMinutes)),
    ...(promised ? [] : [planWords.latest(limitInWords(limitsByLine(plan).get(line.id) ?? null, minutesOf(endAt)))]),
  ];
}
