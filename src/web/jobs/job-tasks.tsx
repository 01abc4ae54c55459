import type { Schemas } from '../api/client.js';
import { day, minutes, moment } from '../format.js';
import { type Column, Sheet } from '../ui/sheet.js';
import { Empty } from '../ui/states.js';
import { jobWords } from '../words/jobs.js';
import { words } from '../words.js';

type Job = Schemas['JobDetailView'];
type Task = Schemas['JobTaskView'];

/** What is to be done, why, and what became of it. */
export function JobTasks({ job }: { job: Job }) {
  const columns: readonly Column<Task>[] = [
    {
      name: jobWords.task,
      cell: (task) => (
        <>
          {task.task}
          {task.positionName !== null && <small>{task.positionName}</small>}
        </>
      ),
    },
    { name: words.reason, wide: true, cell: (task) => task.reason || words.none },
    { name: jobWords.takes, numeric: true, cell: (task) => (task.expectedMinutes === null ? words.none : minutes(task.expectedMinutes)) },
    { name: jobWords.latest, numeric: true, cell: (task) => day(task.latestOn) },
    { name: jobWords.outcome, cell: (task) => outcomeOf(task, job.timeZone) },
  ];
  return (
    <section className="block">
      <h2>{jobWords.tasks}</h2>
      {job.taskList.length === 0 ? (
        <Empty title={jobWords.tasksNone}>{jobWords.tasksNoneWhy}</Empty>
      ) : (
        <Sheet caption={jobWords.tasks} columns={columns} rows={job.taskList} keyOf={(task) => task.id} />
      )}
    </section>
  );
}

const outcomeOf = ({ outcome, doneAt }: Task, timeZone: string) =>
  outcome === null ? jobWords.outcomeOpen : doneAt === null ? outcome : jobWords.doneAt(outcome, moment(doneAt, timeZone));
