import { Link } from 'wouter';
import { words } from '../words.js';

export type JobMark = keyof typeof words.work.marks;
/** Marks that ask its person to do something. */
const ASKS: readonly JobMark[] = ['refused', 'held'];

/** A job in a list: the whole line is the way to its sheet. */
export function JobLink({ jobId, title, place, mark }: { jobId: string; title: string; place: string; mark: JobMark | undefined }) {
  return (
    <li>
      <Link href={`/work/${jobId}`} className="job-link">
        <span>{title}</span>
        <small>{place}</small>
        {mark !== undefined && <strong className={ASKS.includes(mark) ? 'job-mark asks' : 'job-mark'}>{words.work.marks[mark]}</strong>}
      </Link>
    </li>
  );
}
