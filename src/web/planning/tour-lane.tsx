import { planWords } from '../words/plan.js';
import { lineKey } from './plan-lines.js';
import { isAgreed, limitedStays, type ShownPlan } from './shown-plan.js';
import { ANCHOR, NIGHT } from './strip-marks.js';
import { boxesOf, clockOf, hoursOf, minutesOf, piecesOf, type Stay, type TimeScale, type Tour, xOf } from './tour-geometry.js';

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
  readonly onOpen: (key: string) => void;
}

/** What one person does on one day, as a line to scale: ways dashed, work thick, time to spare blank. */
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
          {[`${tour.leaveAt}–${tour.backAt}`, tour.startsNear && planWords.fromNear(tour.startsNear), tour.endsNear && planWords.nightNear(tour.endsNear)]
            .filter(Boolean)
            .join(', ')}
        </small>
      </p>
      {/* biome-ignore lint/a11y/noSvgWithoutTitle: the buttons in it say what is drawn */}
      <svg width={width} height={HEIGHT} className="lane-drawing">
        <g>
          {hoursOf(scale).map((hour) => (
            <path key={hour.minutes} d={`M${hour.x.toFixed(1)} 0V${HEIGHT}`} className="lane-hour" />
          ))}
          {piecesOf(tour).map(({ kind, from, until }) => (
            <path key={`${kind} ${from}`} d={`M${x(from).toFixed(1)} ${LINE_Y}H${x(until).toFixed(1)}`} className={`lane-${kind}`} />
          ))}
          {limited.map(({ stay, limit }) =>
            isAgreed(stay) ? (
              <path key={stay.start} d={ANCHOR} transform={`translate(${x(stay.start).toFixed(1)} ${LINE_Y})`} className="lane-anchor" />
            ) : limit !== null && limit.at >= stay.end && limit.at <= scale.until ? (
              <path key={stay.start} d={`M${x(limit.at).toFixed(1)} ${LINE_Y - 7}v14m-4 -14h4m-4 14h4`} className="lane-limit" />
            ) : null,
          )}
          {tour.endsNear !== null && <path d={NIGHT} transform={`translate(${(back + 8).toFixed(1)} ${LINE_Y})`} className="lane-night" />}
        </g>
        {limited.map(({ stay }, at) => (
          <foreignObject key={stay.start} x={boxes[at]?.x ?? 0} y={0} width={boxes[at]?.width ?? 0} height={BUTTON_HEIGHT}>
            <StayButton stay={stay} line={lineOf(plan, tour, stay)} isNamed={(boxes[at]?.width ?? 0) >= NAME_PX} onOpen={() => onOpen(lineKey(tour, stay))} />
          </foreignObject>
        ))}
      </svg>
    </div>
  );
}

const lineOf = (plan: ShownPlan, tour: Tour, stay: Stay) => plan.lines.find(({ key }) => key === lineKey(tour, stay));

interface ButtonProps {
  readonly stay: Stay;
  readonly line: ShownPlan['lines'][number] | undefined;
  readonly isNamed: boolean;
  readonly onOpen: () => void;
}

/** Its visible words are the number of the visit, and the site where there is room. */
function StayButton({ stay, line, isNamed, onOpen }: ButtonProps) {
  const who = line?.people.map(({ name }) => name).join(', ') ?? '';
  return (
    <button type="button" className="lane-stay" onClick={onOpen}>
      <strong>{line?.no}</strong> {isNamed && stay.siteName}
      <span className="unseen">
        {isNamed ? '' : ` ${stay.siteName}`}, {clockOf(stay.start)}–{clockOf(stay.end)}, {who}
        {isAgreed(stay) && `, ${planWords.promised}`}
      </span>
    </button>
  );
}
