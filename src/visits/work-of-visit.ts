import { Injectable } from '@nestjs/common';
import { type Caller, Clock, type FieldProblem, InvalidRequest, type Reader } from '../app/index.js';
import { MakeJobs } from '../jobs/index.js';
import { dayInWords } from '../shared/day.js';
import { DueReader } from '../upkeep/index.js';
import { type JobToPlan, jobsToPlan, putJobs } from './visit-writes.repository.js';
import type { VisitJobsDto } from './visits.dto.js';

interface ForVisit {
  readonly id: string;
  readonly no: number;
  readonly siteId: string;
  readonly siteName: string;
  readonly onDay: string;
}

/** Puts work into a visit: jobs that wait for one, and jobs made from the due list. */
@Injectable()
export class WorkOfVisit {
  constructor(
    private readonly dues: DueReader,
    private readonly makeJobs: MakeJobs,
    private readonly clock: Clock,
  ) {}

  /** Answers what was put in, in words. */
  async put(tx: Reader, caller: Caller, visit: ForVisit, { jobIds = [], dueIds = [] }: VisitJobsDto): Promise<string> {
    const made = dueIds.length === 0 ? [] : await this.fromDues(tx, caller, visit, dueIds);
    const jobs = await jobsToPlan(tx, [...new Set([...jobIds, ...made])]);
    refuseAny(
      jobIds.flatMap((id, at) =>
        problemOf(
          visit,
          jobs.find((job) => job.id === id),
        ).map((message) => ({ pointer: `#/jobIds/${at}`, message })),
      ),
    );
    const change = { from: '', to: `visit ${visit.no}`, note: dayInWords(visit.onDay, visit.onDay) };
    await putJobs(tx, jobs, visit.id, { caller, at: this.clock.now() }, change);
    return jobs.map(inWords).join(', ');
  }

  private async fromDues(tx: Reader, caller: Caller, visit: ForVisit, dueIds: readonly string[]): Promise<string[]> {
    const dues = await this.dues.byIds(tx, dueIds);
    refuseAny(
      dueIds.flatMap((id, at) => {
        const due = dues.find((each) => each.id === id);
        const pointer = `#/dueIds/${at}`;
        if (due === undefined) return [{ pointer, message: 'this line was computed anew since: reload the due list and choose again' }];
        const elsewhere = `${due.task} at ${due.skidName} is due at another site than ${visit.siteName}: make a visit of its own there`;
        return due.siteId === visit.siteId ? [] : [{ pointer, message: elsewhere }];
      }),
    );
    return this.makeJobs.fromDues(tx, caller, dues);
  }
}

export const inWords = ({ no, title }: Pick<JobToPlan, 'no' | 'title'>) => `job ${no} ${title}`;

function problemOf(visit: ForVisit, job: JobToPlan | undefined): string[] {
  if (job === undefined) return ['there is no such job'];
  if (job.siteId !== visit.siteId) return [`${inWords(job)} is at ${job.siteName}, not at ${visit.siteName}: make a visit of its own there`];
  if (job.state === 'finished' || job.state === 'dropped') return [`${inWords(job)} is ${job.state}: there is nothing left to plan`];
  if (job.openVisitNo !== null && job.visitId !== visit.id) return [`${inWords(job)} is in visit ${job.openVisitNo} already: take it out there first`];
  return [];
}

function refuseAny(problems: readonly FieldProblem[]): void {
  if (problems.length > 0) throw new InvalidRequest('The visit has work that cannot be planned so', problems);
}
