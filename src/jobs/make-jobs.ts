import { Injectable } from '@nestjs/common';
import { type Caller, Conflict, newId, type Reader } from '../app/index.js';
import { type DueForWork, TaskSheetReader } from '../upkeep/index.js';
import { JobHooks } from './job-hooks.js';
import { createJobs, type NewJob, type NewTask, openTasksFor } from './job-writes.repository.js';

/** Work that nobody's rule asks for. */
export interface OwnTask {
  readonly task: string;
  readonly positionId: string | null;
  readonly taskSheetId: string | null;
  readonly expectedMinutes: number | null;
}

export interface JobToMake {
  readonly skid: { readonly id: string; readonly clientId: string; readonly siteId: string };
  readonly kind: 'service' | 'follow-up';
  readonly title: string;
  readonly request: string;
  readonly bestOn: string | null;
  readonly followsJobId: string | null;
  readonly afterJobId?: string | null;
  readonly dues: readonly DueForWork[];
  readonly tasks: readonly OwnTask[];
}

/** Makes jobs: of dues, of one's own words, or of both. */
@Injectable()
export class MakeJobs {
  constructor(
    private readonly sheets: TaskSheetReader,
    private readonly hooks: JobHooks,
  ) {}

  /** One job a skid, with a task for each due. */
  async fromDues(tx: Reader, caller: Caller, dues: readonly DueForWork[]): Promise<string[]> {
    const skids = [...new Map(dues.map((due) => [due.skidId, due])).values()];
    return this.make(
      tx,
      caller,
      skids.map(({ skidId, clientId, siteId }) => ({
        skid: { id: skidId, clientId, siteId },
        kind: 'service',
        title: '',
        request: '',
        bestOn: null,
        followsJobId: null,
        dues: dues.filter((due) => due.skidId === skidId),
        tasks: [],
      })),
    );
  }

  /** With as many statements for many as for one. */
  async make(tx: Reader, caller: Pick<Caller, 'id' | 'name'>, jobs: readonly JobToMake[]): Promise<string[]> {
    if (jobs.length === 0) return [];
    await this.refuseDoubled(
      tx,
      jobs.flatMap(({ dues }) => dues),
    );
    const sheetIds = jobs.flatMap(({ dues, tasks }) => [...dues, ...tasks].flatMap(({ taskSheetId }) => taskSheetId ?? []));
    const sheets = new Map((await this.sheets.latest(tx, sheetIds)).map((sheet) => [sheet.taskSheetId, sheet]));
    const made = jobs.map((job): NewJob => {
      const tasks: NewTask[] = [...job.dues, ...job.tasks.map((task) => ({ ...task, ...NO_DUE }))].map((wanted) => {
        const sheet = sheets.get(wanted.taskSheetId ?? '');
        const { task, positionId, ruleId, outlookId, reason, bestOn, latestOn } = wanted;
        const expectedMinutes = wanted.expectedMinutes ?? sheet?.usualMinutes ?? null;
        const kind = sheet?.kind ?? 'service';
        return { task, kind, positionId, sheetVersionId: sheet?.id ?? null, ruleId, outlookId, reason, dueOn: bestOn, latestOn, expectedMinutes };
      });
      const { id: skidId, clientId, siteId } = job.skid;
      const { kind, request, followsJobId, afterJobId = null } = job;
      const title = job.title === '' ? titleOf(tasks) : job.title;
      const days = {
        earliestOn: earliest(job.dues.map(({ earliestOn }) => earliestOn)),
        bestOn: job.bestOn ?? earliest(job.dues.map(({ bestOn }) => bestOn)),
        latestOn: earliest(job.dues.map(({ latestOn }) => latestOn)),
      };
      return { id: newId(), clientId, siteId, skidId, kind, title, request, followsJobId, afterJobId, ...days, tasks };
    });
    await createJobs(tx, caller, made);
    for (const { id, skidId } of made) await this.hooks.tellChanged(tx, { id, skidId, visitId: null });
    return made.map(({ id }) => id);
  }

  private async refuseDoubled(tx: Reader, dues: readonly DueForWork[]): Promise<void> {
    const [held] = await openTasksFor(tx, dues);
    if (held === undefined) return;
    const where = held.positionName === null ? held.skidName : `${held.positionName}, ${held.skidName}`;
    throw new Conflict(`${held.task} (${where}) is in job ${held.no} already. Put that job into the visit, or drop it first`);
  }
}

const NO_DUE = { ruleId: null, outlookId: null, reason: '', bestOn: null, latestOn: null };

const earliest = (days: readonly (string | null)[]): string | null =>
  days.reduce<string | null>((first, day) => (day !== null && (first === null || day < first) ? day : first), null);

function titleOf(tasks: readonly NewTask[]): string {
  const [first] = tasks;
  if (first === undefined) return 'Service';
  return tasks.length === 1 ? first.task : `${first.task} and ${tasks.length - 1} more`;
}
