import { Injectable } from '@nestjs/common';
import { type Caller, Clock, Conflict, Database, type KeyedRequest, KeyedWork, NotFound, viewOf } from '../app/index.js';
import { JobHooks } from './job-hooks.js';
import { addChange, holdJob } from './job-writes.repository.js';
import { RequestNoteView } from './requests.dto.js';

/** What a client, or the department for the client to read, adds to a job that is not over. */
@Injectable()
export class RequestNotes {
  constructor(
    private readonly database: Database,
    private readonly work: KeyedWork,
    private readonly hooks: JobHooks,
    private readonly clock: Clock,
  ) {}

  async add(caller: Caller, key: KeyedRequest, jobId: string, note: string): Promise<RequestNoteView> {
    const seen = await this.database.readFor(caller, (reader) => reader.job.findUnique({ where: { id: jobId }, select: { siteId: true } }));
    if (seen === null || (caller.siteId !== null && seen.siteId !== caller.siteId)) throw new NotFound('job', jobId);
    return this.work.run(key, async (tx) => {
      const job = await holdJob(tx, jobId);
      if (job === undefined) throw new NotFound('job', jobId);
      if (job.state === 'finished' || job.state === 'dropped') throw new Conflict(`Job ${job.no} is ${job.state}: raise a new request`);
      const at = this.clock.now();
      await addChange(tx, { jobId, clientId: job.clientId, at, byId: caller.id, by: caller.name, what: 'note', note, toClient: true });
      await this.hooks.tellChanged(tx, job);
      return viewOf(RequestNoteView, { at, by: caller.name, note });
    });
  }
}
