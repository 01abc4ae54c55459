import { Link } from 'wouter';
import { workWords } from '../words/work.js';

export type JobMark = keyof typeof workWords.marks;
/** Marks that ask its person to do something. */
const ASKS: readonly JobMark[] = ['refused', 'held'];

/** A job in a list: the whole line is the way to its sheet. */
export function JobLink({ jobId, title, place, mark }: { jobId: string; title: string; place: string; mark: JobMark | undefined }) {
  return (
    <li>
      <Link href={`/work/${jobId}`} className="job-link">
        <span>{title}</span>
        <small>{place}</small>
        {mark !== undefined && <strong className={ASKS.includes(mark) ? 'job-mark asks' : 'job-mark'}>{workWords.marks[mark]}</strong>}
      </Link>
    </li>
  );
}
