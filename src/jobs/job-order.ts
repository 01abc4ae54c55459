import { faultIn, type Reader } from '../app/index.js';
import { jobsUpTo, noOfJob } from './job-order.repository.js';

const OTHER = 'choose another job of this client, or none';

/** A job that is to be done after another one; id and number unset: it is only being made. */
interface JobToOrder {
  readonly id?: string;
  readonly no?: number;
  readonly clientId: string;
  readonly afterJobId?: string | null;
}

/** What changes when a job is to be done after another one, in words; refuses what cannot be. */
export async function orderInWords(tx: Reader, job: JobToOrder, afterJobId: string | null): Promise<string[]> {
  const { afterJobId: before = null } = job;
  if (afterJobId === before) return [];
  const now = afterJobId === null ? [] : [`after job ${await noToFollow(tx, job, afterJobId)}`];
  return before === null ? now : [...now, `no longer after job ${await noOfJob(tx, before)}`];
}

async function noToFollow(tx: Reader, { id, no, clientId }: JobToOrder, afterJobId: string): Promise<number> {
  if (afterJobId === id) throw faultIn('afterJobId', `a job cannot be done after itself: ${OTHER}`);
  const way = await jobsUpTo(tx, afterJobId, clientId, id ?? null);
  const [first] = way;
  if (first === undefined) throw faultIn('afterJobId', `this client has no job ${afterJobId}: ${OTHER}`);
  if (way.at(-1)?.id === id) {
    const circle = [no, ...way.map((each) => each.no)];
    const steps = circle.slice(0, -1).map((one, at) => `job ${one} after job ${circle[at + 1]}`);
    throw faultIn('afterJobId', `that makes a circle: ${steps.join(', ')}. Take one of the others off first, or ${OTHER}`);
  }
  if (first.state === 'dropped') throw faultIn('afterJobId', `job ${first.no} was dropped: put it back to open first, or ${OTHER}`);
  return first.no;
}
