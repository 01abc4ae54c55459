import { useId } from 'react';
import { useWidth } from '../../chart/use-width.js';
import { planWords } from '../../words/plan.js';
import type { ShownPlan } from '../shown-plan.js';
import { layOut, type PlacePoint, placesOf, wayOf } from './route-geometry.js';

const MOST_HEIGHT = 420;
/** How the lines of different people differ, in the order of the people */
const DASHES = [undefined, '7 4', '2 3', '9 3 2 3'];

/** The tours of a plan as lines between places: nothing but their shape, to see what lies together. The table says the same in words. */
export function RouteSketch({ plan }: { plan: ShownPlan }) {
  const id = useId();
  const [hold, width] = useWidth<HTMLDivElement>();
  const places = placesOf(plan);
  const { height, points } = layOut(places, width, MOST_HEIGHT);
  const at = new Map(points.map((point) => [point.key, point]));
  const people = [...new Set(plan.tours.map(({ personId }) => personId))];
  return (
    <section className="block">
      <h2 id={id}>{planWords.sketch}</h2>
      <p className="hint">{planWords.sketchNote}</p>
      <div className="sketch" ref={hold}>
        {width > 0 && (
          // biome-ignore lint/a11y/noSvgWithoutTitle: named by the heading of the section
          <svg width={width} height={height} viewBox={`0 0 ${width} ${height}`} role="img" aria-labelledby={id}>
            {plan.tours.map((tour) => (
              <path
                key={`${tour.personId} ${tour.day}`}
                d={pathOf(wayOf(tour, places), at)}
                className="sketch-way"
                strokeDasharray={DASHES[people.indexOf(tour.personId) % DASHES.length]}
              />
            ))}
            {points.map((point) => (
              <Mark key={point.key} point={point} />
            ))}
          </svg>
        )}
      </div>
      <ul className="strip-key">
        {plan.people
          .filter(({ personId }) => people.includes(personId))
          .map(({ personId, name }) => (
            <li key={personId}>
              <svg width={32} height={20} aria-hidden="true" focusable="false">
                <path d="M1 10H31" className="sketch-way" strokeDasharray={DASHES[people.indexOf(personId) % DASHES.length]} />
              </svg>
              {name}
            </li>
          ))}
      </ul>
    </section>
  );
}

const pathOf = (keys: readonly string[], at: ReadonlyMap<string, PlacePoint>): string =>
  keys
    .flatMap((key) => at.get(key) ?? [])
    .map(({ x, y }, no) => `${no === 0 ? 'M' : 'L'}${x.toFixed(1)} ${y.toFixed(1)}`)
    .join('');

function Mark({ point: { kind, x, y, labelY, name, side } }: { point: PlacePoint }) {
  const gap = side === 'right' ? 9 : -9;
  return (
    <>
      {kind === 'home' ? <rect x={x - 5} y={y - 5} width={10} height={10} className="sketch-home" /> : <circle cx={x} cy={y} r={4.5} className="sketch-site" />}
      <text
        x={x + gap}
        y={labelY + 4}
        textAnchor={side === 'right' ? 'start' : 'end'}
        className={kind === 'home' ? 'plot-label plot-label-soft' : 'plot-label'}
      >
        {kind === 'home' ? planWords.home(name) : name}
      </text>
    </>
  );
}
