import { Injectable } from '@nestjs/common';
import { type Caller, Conflict, Database, EditedMeanwhile, faultIn, type KeyedRequest, KeyedWork, NotFound, type Reader } from '../app/index.js';
import type { WorkRole } from '../shared/job-moves.js';
import { DueReader } from '../upkeep/index.js';
import { findSkidOfWork } from './breakdown-rows.repository.js';
import { checkMove } from './core/job-states.js';
import { JobHooks } from './job-hooks.js';
import { orderInWords } from './job-order.js';
import { holdOrder } from './job-order.repository.js';
import { addChange, editJob, type HeldJob, holdJob } from './job-writes.repository.js';
import type { EditJobDto, JobNoteDto, JobStateDto, NewJobDto } from './jobs.dto.js';
import { MakeJobs } from './make-jobs.js';
import { unknownOfTasks } from './task-places.repository.js';

/** Makes jobs by hand, edits them and moves them on; every change is kept with who and when. Answers with the id of the job. */
@Injectable()
export class ChangeJobs {
  constructor(
    private readonly database: Database,
    private readonly work: KeyedWork,
    private readonly makeJobs: MakeJobs,
    private readonly dues: DueReader,
    private readonly hooks: JobHooks,
  ) {}

  make(caller: Caller, key: KeyedRequest, input: NewJobDto): Promise<string> {
    const { skidId, kind, title = '', request, bestOn = null, followsJobId = null, afterJobId = null, dueIds, tasks } = input;
    if (dueIds.length + tasks.length === 0) throw faultIn('tasks', 'name the work: lines of the due list in dueIds, or tasks');
    return this.work.run(key, async (tx) => {
      const skid = await findSkidOfWork(tx, skidId);
      if (skid === null) throw new NotFound('skid', skidId);
      if (skid.endedOn !== null) throw faultIn('skidId', `${skid.name} ended on ${skid.endedOn.toISOString().slice(0, 10)}`);
      const dues = await this.dues.byIds(tx, dueIds);
      for (const [at, id] of dueIds.entries()) {
        const due = dues.find((each) => each.id === id);
        if (due === undefined) throw faultIn(`dueIds/${at}`, 'this line was computed anew since: reload the due list and choose again');
        if (due.skidId !== skidId) throw faultIn(`dueIds/${at}`, `${due.task} is due at ${due.skidName}, not at ${skid.name}`);
      }
      const own = tasks.map(({ task, positionId = null, taskSheetId = null, expectedMinutes = null }) => ({ task, positionId, taskSheetId, expectedMinutes }));
      const unknown = await unknownOfTasks(tx, skidId, own);
      if (unknown !== null) throw faultIn(unknown.field, unknown.message);
      if (followsJobId !== null && (await tx.job.count({ where: { id: followsJobId } })) === 0)
        throw faultIn('followsJobId', `there is no job ${followsJobId}`);
      const { clientId } = skid;
      const order = await orderInWords(tx, { clientId }, afterJobId);
      const [id = ''] = await this.makeJobs.make(tx, caller, [{ skid, kind, title, request, bestOn, followsJobId, afterJobId, dues, tasks: own }]);
      if (order.length > 0) await addChange(tx, { jobId: id, clientId, byId: caller.id, by: caller.name, what: 'edited', note: order.join(', ') });
      return id;
    });
  }

  edit(caller: Caller, id: string, version: number, { earliestOn, bestOn, latestOn, afterJobId, ...texts }: EditJobDto): Promise<string> {
    const change = async (tx: Reader, job: HeldJob) => {
      if (job.version !== version) throw new EditedMeanwhile('The job was edited after you read it. Read it again, and make your change to that');
      if (job.state === 'finished') throw new Conflict(`Job ${job.no} is finished: what is on record is not edited`);
      const given = Object.keys(texts).filter((name) => texts[name as keyof typeof texts] !== undefined);
      const days = Object.entries({ earliestOn, bestOn, latestOn }).filter(([, day]) => day !== undefined);
      const order = afterJobId === undefined ? [] : await orderInWords(tx, job, afterJobId);
      const dates = Object.fromEntries(days.map(([name, day]) => [name, day === null ? null : new Date(`${day}T00:00:00Z`)]));
      await editJob(tx, id, { ...texts, ...dates, ...(afterJobId !== undefined && { afterJobId }) });
      const told = [...given, ...days.map(([name]) => name), ...order].join(', ');
      await addChange(tx, { jobId: id, clientId: job.clientId, byId: caller.id, by: caller.name, what: 'edited', note: told });
      await this.hooks.tellChanged(tx, job);
    };
    return this.held(id, change, afterJobId ?? null);
  }

  move(caller: Caller, id: string, { to, note }: JobStateDto): Promise<string> {
    return this.held(id, async (tx, job) => {
      if (job.state === to) return;
      const checked = checkMove(job.state, to, caller.role as WorkRole, note);
      if (checked.kind === 'refused')
        throw job.state === 'finished' || checked.field === 'to' ? new Conflict(checked.message) : faultIn('note', checked.message);
      const stateNote = to === 'waiting' || to === 'dropped' ? note.trim() : '';
      // What is dropped leaves its visit, which it would hold open.
      await editJob(tx, id, { state: to, stateNote, ...(to === 'dropped' && { visitId: null }) });
      const toClient = job.kind === 'breakdown' || job.kind === 'request' || to === 'dropped';
      await addChange(tx, {
        jobId: id,
        clientId: job.clientId,
        byId: caller.id,
        by: caller.name,
        what: 'state',
        from: job.state,
        to,
        note: note.trim(),
        toClient,
      });
      await this.hooks.tellChanged(tx, job);
    });
  }

  note(caller: Caller, id: string, { note, toClient }: JobNoteDto): Promise<string> {
    return this.held(id, async (tx, { clientId }) => {
      await addChange(tx, { jobId: id, clientId, byId: caller.id, by: caller.name, what: 'note', note, toClient });
    });
  }

  private held(id: string, work: (tx: Reader, job: HeldJob) => Promise<void>, afterJobId: string | null = null): Promise<string> {
    return this.database.write(async (tx) => {
      if (afterJobId !== null) await holdOrder(tx, [id, afterJobId]);
      const job = await holdJob(tx, id);
      if (job === undefined) throw new NotFound('job', id);
      await work(tx, job);
      return id;
    });
  }
}
