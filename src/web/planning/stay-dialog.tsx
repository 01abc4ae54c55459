import type { ReactNode } from 'react';
import { query } from '../api/client.js';
import { minutes as inWords } from '../format.js';
import { Dialog } from '../ui/dialog.js';
import { Loaded } from '../ui/states.js';
import { ShiftForm } from '../visits/shift-dialog.js';
import { weekday } from '../visits/weekday.js';
import { planWords } from '../words/plan.js';
import { visitWords } from '../words/visits.js';
import { limitInWords, limitsByLine } from './limits-by-line.js';
import { OtherwiseForm } from './otherwise-form.js';
import { type Line, lineKey } from './plan-lines.js';
import { isAgreed, type ShownPlan } from './shown-plan.js';
import { clockOf, minutesOf, staysOf } from './tour-geometry.js';

interface StayDialogProps {
  readonly line: Line;
  /** With the tours of everybody */
  readonly plan: ShownPlan;
  readonly onClose: () => void;
}

/** Why a visit is where it is in the plan, and another day, time or people for it. */
export function StayDialog({ line, plan, onClose }: StayDialogProps) {
  const { stay, day, people } = line;
  const visitId = stay.stops.find(({ kind }) => kind === 'visit')?.id;
  return (
    <Dialog title={`${stay.siteName}, ${weekday(day)}`} onClose={onClose}>
      {(close) => (
        <>
          <p>
            {clockOf(stay.start)}–{clockOf(stay.end)}, {people.map(({ name }) => name).join(', ')}
          </p>
          <ul className="plain">
            {stay.stops.map(({ id, text }) => (
              <li key={id}>{text}</li>
            ))}
          </ul>
          <h3>{planWords.whyHere}</h3>
          <ul className="plain">
            {whyHere(line, plan).map((sentence) => (
              <li key={sentence}>{sentence}</li>
            ))}
          </ul>
          <h3>{planWords.shift}</h3>
          <p className="hint">{planWords.shiftNote}</p>
          {visitId === undefined ? <OtherwiseForm line={line} plan={plan} close={close} /> : <ShiftOfVisit visitId={visitId} close={close} />}
        </>
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

function whyHere(line: Line, plan: ShownPlan): string[] {
  const { stay, key } = line;
  const tour = plan.tours.find((each) => staysOf(each).some((one) => lineKey(each, one) === key));
  if (tour === undefined) return [];
  const stays = staysOf(tour);
  const at = stays.findIndex((one) => lineKey(tour, one) === key);
  const before = stays[at - 1];
  const left = before?.end ?? minutesOf(tour.leaveAt);
  const from = before?.siteName ?? tour.startsNear;
  const waits = Math.round(stay.start - stay.arrive);
  return [
    ...(isAgreed(stay) ? [planWords.agreed] : []),
    planWords.comesFrom(inWords(stay.arrive - left), from === null ? planWords.fromHome : planWords.fromSite(from)),
    ...(waits > 0 ? [planWords.waits(inWords(waits))] : []),
    planWords.takes(inWords(stay.end - stay.start)),
    ...(isAgreed(stay) ? [] : [planWords.latest(limitInWords(limitsByLine(plan).get(key) ?? null, stay.end))]),
    planWords.tourOf(tour.personName, stays.length),
  ];
}
