import { STANDING_LABELS, type Standing } from '../../shared/standing.js';

/** A silhouette for each standing, so that it still reads in grey, in print and small. */
function Mark({ standing }: { standing: Standing }) {
  return (
    <svg className={`mark mark-${standing}`} viewBox="0 0 16 16" aria-hidden="true" focusable="false">
      {standing === 'steady' && <circle cx="8" cy="8" r="5" className="mark-line" />}
      {standing === 'no-data' && (
        <>
          <circle cx="8" cy="8" r="6" className="mark-line" strokeDasharray="2.4 2.3" />
          <path d="M8 11.2v.1M6.3 6.4a1.8 1.8 0 1 1 2.6 1.7c-.6.3-.9.6-.9 1.2" className="mark-line" />
        </>
      )}
      {standing === 'watch' && (
        <>
          <path d="M8 1.5 14.5 8 8 14.5 1.5 8Z" className="mark-line" />
          <path d="M1.5 8h13L8 14.5Z" className="mark-fill" />
        </>
      )}
      {standing === 'due' && <path d="M8 1.2 15.3 14.4H.7Z" className="mark-fill" />}
      {standing === 'overdue' && (
        <>
          <rect x="1" y="1" width="14" height="14" rx="1.5" className="mark-fill" />
          <path d="M8 3.8v5.2M8 11.8v.4" className="mark-cut" />
        </>
      )}
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
