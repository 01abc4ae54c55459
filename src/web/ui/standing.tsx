import { STANDING_LABELS, type Standing } from '../../shared/standing.js';
import { MARK_SIZE, STANDING_MARKS } from '../../shared/standing-marks.js';

function Mark({ standing }: { standing: Standing }) {
  return (
    <svg className={`mark mark-${standing}`} viewBox={`0 0 ${MARK_SIZE} ${MARK_SIZE}`} aria-hidden="true" focusable="false">
      {STANDING_MARKS[standing].map(({ ink, d, dash }) => (
        <path key={d} d={d} className={`mark-${ink}`} strokeDasharray={dash?.join(' ')} />
      ))}
    </svg>
  );
}

/** The word is always beside the mark: colour and shape alone say nothing. */
export function StandingTag({ standing }: { standing: Standing }) {
  return (
    <span className={`standing standing-${standing}`}>
      <Mark standing={standing} />
      {STANDING_LABELS[standing]}
    </span>
  );
}
