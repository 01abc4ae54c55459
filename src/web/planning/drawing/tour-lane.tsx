import { planWords } from '../../words/plan.js';
import { namesOf } from '../lines.js';
import { type LimitedStay, limitedStays, type ShownPlan } from '../shown-plan.js';
import { ANCHOR, breakPath, NIGHT } from './strip-marks.js';
import { boxesOf, clockOf, hoursOf, minutesOf, piecesOf, type TimeScale, type Tour, xOf } from './tour-geometry.js';

const HEIGHT = 48;
const LINE_Y = 35;
const BUTTON_HEIGHT = 26;
/** A name is written where there is room for some of it */
const NAME_PX = 76;

interface LaneProps {
  readonly tour: Tour;
  readonly plan: ShownPlan;
  readonly scale: TimeScale;
  readonly width: number;
  readonly onOpen: (lineId: string) => void;
}

/** What one person does on one day, as a line to scale: ways dashed, work thick, the break between two thin lines, time to spare blank. */
export function TourLane({ tour, plan, scale, width, onOpen }: LaneProps) {
  const limited = limitedStays(tour, plan);
  const boxes = boxesOf(
    limited.map(({ stay }) => stay),
    scale,
  );
  const x = (minutes: number) => xOf(scale, minutes);
  const back = x(minutesOf(tour.backAt));
  return (
    <div className="lane">
      <p className="lane-name">
        {tour.personName}
        <small>
          {[
            `${tour.leaveAt}–${tour.backAt}`,
            tour.breakAt && planWords.breakAt(tour.breakAt.from, tour.breakAt.until),
            tour.breakLeftOut && planWords.breakLeftOut,
            tour.onCall && planWords.onCall,
            tour.startsNear && planWords.fromNear(tour.startsNear),
            tour.endsNear && planWords.nightNear(tour.endsNear),
          ]
            .filter(Boolean)
            .join(', ')}
        </small>
      </p>
      {/* biome-ignore lint/a11y/noSvgWithoutTitle: the buttons in it say what is drawn */}
      <svg width={width} height={HEIGHT} viewBox={`0 0 ${width} ${HEIGHT}`} className="lane-drawing">
        <g>
          {hoursOf(scale).map((hour) => (
            <path key={hour.minutes} d={`M${hour.x.toFixed(1)} 0V${HEIGHT}`} className="lane-hour" />
          ))}
          {piecesOf(tour).map(({ kind, from, until }) => (
            <path
              key={`${kind} ${from}`}
              d={kind === 'break' ? breakPath(x(from), x(until), LINE_Y) : `M${x(from).toFixed(1)} ${LINE_Y}H${x(until).toFixed(1)}`}
              className={`lane-${kind}`}
            />
          ))}
          {limited.map(({ stay, line, limit }) =>
            line?.promised ? (
              <path key={stay.start} d={ANCHOR} transform={`translate(${x(stay.start).toFixed(1)} ${LINE_Y})`} className="lane-anchor" />
            ) : limit !== null && limit.at >= stay.end && limit.at <= scale.until ? (
              <path key={stay.start} d={`M${x(limit.at).toFixed(1)} ${LINE_Y - 7}v14m-4 -14h4m-4 14h4`} className="lane-limit" />
            ) : null,
          )}
          {tour.endsNear !== null && <path d={NIGHT} transform={`translate(${(back + 8).toFixed(1)} ${LINE_Y})`} className="lane-night" />}
        </g>
        {limited.map((one, at) => {
          const { x: left, width: wide } = boxes[at] ?? { x: 0, width: 0 };
          return (
            <foreignObject key={one.stay.start} x={left} y={0} width={wide} height={BUTTON_HEIGHT}>
              <StayButton of={one} isNamed={wide >= NAME_PX} onOpen={onOpen} />
            </foreignObject>
          );
        })}
      </svg>
    </div>
  );
}

/** Its visible words are the number of the line, and the site where there is room. */
function StayButton({ of: { stay, line }, isNamed, onOpen }: { of: LimitedStay; isNamed: boolean; onOpen: (lineId: string) => void }) {
  if (line === undefined) return null;
  return (
    <button type="button" className="lane-stay" onClick={() => onOpen(line.id)}>
      <strong>{line.no}</strong> {isNamed && stay.siteName}
      <span className="unseen">
        {isNamed ? '' : ` ${stay.siteName}`}, {clockOf(stay.start)}–{clockOf(stay.end)}, {namesOf(line.people)}
        {line.promised && `, ${planWords.promised}`}
      </span>
    </button>
  );
}
