import { useId } from 'react';
import { words } from '../words.js';
import '../styles/period.css';

export interface Period {
  /** Days, or empty: open on that side */
  readonly from: string;
  readonly to: string;
}

/** The last so many days until today. */
export function lastDays(days: number): Period {
  const to = new Date();
  return { from: new Date(to.getTime() - days * 86_400_000).toISOString().slice(0, 10), to: to.toISOString().slice(0, 10) };
}

/** First and last day of a period. */
export function PeriodFields({ period, onChange }: { period: Period; onChange: (period: Period) => void }) {
  const id = useId();
  return (['from', 'to'] as const).map((end) => (
    <div className="field" key={end}>
      <label htmlFor={`${id}-${end}`}>{words.period[end]}</label>
      <input id={`${id}-${end}`} type="date" value={period[end]} onChange={({ target }) => onChange({ ...period, [end]: target.value })} />
    </div>
  ));
}
