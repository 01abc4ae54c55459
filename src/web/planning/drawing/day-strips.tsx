import { useId } from 'react';
import { useWidth } from '../../chart/use-width.js';
import { weekday } from '../../visits/weekday.js';
import { planWords } from '../../words/plan.js';
import type { ShownPlan } from '../shown-plan.js';
import { StripKey } from './strip-key.js';
import { clockOf, hoursOf, scaleOf, type TimeScale } from './tour-geometry.js';
import { TourLane } from './tour-lane.js';

const INSET = 12;

interface StripsProps {
  readonly plan: ShownPlan;
  readonly onOpen: (lineId: string) => void;
}

/** One strip a day, each tour a line along the same hours. */
export function DayStrips({ plan, onOpen }: StripsProps) {
  const [hold, width] = useWidth<HTMLDivElement>();
  const days = [...new Set(plan.tours.map(({ day }) => day))].toSorted();
  const scale = scaleOf(plan.tours, INSET, Math.max(width - INSET, 2 * INSET));
  return (
    <div className="strips">
      <StripKey />
      <div className="lane" aria-hidden="true">
        <span />
        <div ref={hold} />
      </div>
      {width > 0 && days.map((day) => <DayStrip key={day} day={day} plan={plan} scale={scale} width={width} onOpen={onOpen} />)}
    </div>
  );
}

function DayStrip({ day, plan, scale, width, onOpen }: StripsProps & { day: string; scale: TimeScale; width: number }) {
  const id = useId();
  const tours = plan.tours.filter((tour) => tour.day === day);
  const isFree = (personId: string) => !tours.some((tour) => tour.personId === personId);
  const waiting = plan.people.filter(({ personId, onCall }) => isFree(personId) && onCall.some(({ from, until }) => day >= from && day <= until));
  return (
    <section className="day-strip" aria-labelledby={id}>
      <div className="lane">
        <h3 id={id}>{weekday(day)}</h3>
        <svg width={width} height={18} viewBox={`0 0 ${width} 18`} aria-hidden="true" className="lane-drawing plot-text">
          {hoursOf(scale).map(({ minutes, x }) => (
            <text key={minutes} x={x} y={13} textAnchor={x < 24 ? 'start' : x > width - 24 ? 'end' : 'middle'}>
              {clockOf(minutes)}
            </text>
          ))}
        </svg>
      </div>
      {waiting.length > 0 && <p className="aside">{planWords.onCallFree(waiting.map(({ name }) => name).join(', '))}</p>}
      {tours.map((tour) => (
        <TourLane key={tour.personId} tour={tour} plan={plan} scale={scale} width={width} onOpen={onOpen} />
      ))}
    </section>
  );
}
