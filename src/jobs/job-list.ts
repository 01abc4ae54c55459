import { Injectable } from '@nestjs/common';
import { type Caller, NotFound, readCursor, toPage, viewOf } from '../app/index.js';
import type { TaskKind } from '../shared/task-sheet.js';
import {
  JobChangeView,
  JobDetailView,
  JobInOrderView,
  JobReportView,
  JobsPageView,
  type JobsQuery,
  JobTaskView,
  JobView,
  ReportProblemView,
  SummaryLineView,
  SummaryTaskView,
} from './jobs.dto.js';
import { type JobRow, JobsRepository, type JobWithAll, type ReportRow } from './jobs.repository.js';

/** Jobs, for whoever may see them. */
@Injectable()
export class JobList {
  constructor(private readonly jobs: JobsRepository) {}

  async page(caller: Caller, query: JobsQuery): Promise<JobsPageView> {
    const offset = Number(readCursor(query.cursor, 1)?.[0] ?? 0);
    const { limit, skidId, siteId, clientId, visitId, state, kind, find } = query;
    const unplanned = query.unplanned === undefined ? undefined : query.unplanned === 'true';
    const rows = await this.jobs.page(caller, { skidId, siteId, clientId, visitId, state, kind, unplanned, find, limit, offset });
    const page = toPage(rows, limit, toView, () => [offset + limit]);
    return viewOf(JobsPageView, { ...page, total: rows[0]?.total ?? 0 });
  }

  async read(caller: Caller, id: string): Promise<JobDetailView> {
    const found = await this.jobs.read(caller, id);
    if (found === null) throw new NotFound('job', id);
    return detailOf(found);
  }
}

const fieldsOf = ({ total: _, version: _v, request: _r, followsJobId: _f, ...job }: JobRow) => job;
const toView = (row: JobRow): JobView => viewOf(JobView, fieldsOf(row));

const dayOf = (date: Date | null): string | null => date?.toISOString().slice(0, 10) ?? null;

function detailOf({ job, tasks, changes, beside, reports }: JobWithAll): JobDetailView {
  const besideIt = (before: boolean) => beside.filter(({ isBefore }) => isBefore === before).map(({ isBefore: _, ...other }) => viewOf(JobInOrderView, other));
  return viewOf(JobDetailView, {
    ...fieldsOf(job),
    request: job.request,
    followsJobId: job.followsJobId,
    afterJob: besideIt(true)[0] ?? null,
    jobsAfter: besideIt(false),
    version: job.version,
    taskList: tasks.map(({ id, task, kind, positionId, position, reason, dueOn, latestOn, expectedMinutes, outcome, doneAt }) =>
      viewOf(JobTaskView, {
        id,
        task,
        kind: kind as TaskKind,
        positionId,
        positionName: position?.name ?? null,
        reason,
        dueOn: dayOf(dueOn),
        latestOn: dayOf(latestOn),
        expectedMinutes,
        outcome,
        doneAt,
      }),
    ),
    changes: changes.map(({ at, by, what, from, to, note, toClient }) => viewOf(JobChangeView, { at, by, what, from, to, note, toClient })),
    reports: reports.map(reportView),
  });
}

function reportView({ summary, problems, ...report }: ReportRow): JobReportView {
  return viewOf(JobReportView, {
    ...report,
    note: summary.note,
    tasks: summary.tasks.map(({ steps, ...task }) => viewOf(SummaryTaskView, { ...task, steps: steps.map((line) => viewOf(SummaryLineView, line)) })),
    lines: summary.lines.map((line) => viewOf(SummaryLineView, line)),
    problems: problems.map((problem) => viewOf(ReportProblemView, problem)),
  });
}
