import { Injectable } from '@nestjs/common';
import type { Reader } from '../app/index.js';

export interface ChangedJob {
  readonly id: string;
  readonly skidId: string;
  readonly visitId: string | null;
}

type Follower = (tx: Reader, job: ChangedJob) => Promise<void>;

/** Later stages follow what becomes of a job, in the transaction of the change. */
@Injectable()
export class JobHooks {
  private readonly finished: Follower[] = [];
  private readonly changed: Follower[] = [];

  onFinished(follow: Follower): void {
    this.finished.push(follow);
  }

  /** Made, moved on, or told more about; not finished. */
  onChanged(follow: Follower): void {
    this.changed.push(follow);
  }

  async tellFinished(tx: Reader, job: ChangedJob): Promise<void> {
    for (const follow of this.finished) await follow(tx, job);
  }

  async tellChanged(tx: Reader, job: ChangedJob): Promise<void> {
    for (const follow of this.changed) await follow(tx, job);
  }
}
