import type { Schemas } from '../api/client.js';
import { day, minutes, moment } from '../format.js';
import { type Column, Sheet } from '../ui/sheet.js';
import { Empty } from '../ui/states.js';
import { words } from '../words.js';

type Job = Schemas['JobDetailView'];
type Task = Schemas['JobTaskView'];

/** What is to be done, why, and what became of it. */
export function JobTasks({ job }: { job: Job }) {
  const columns: readonly Column<Task>[] = [
    {
      name: words.jobs.task,
      cell: (task) => (
        <>
          {task.task}
          {task.positionName !== null && <small>{task.positionName}</small>}
        </>
      ),
    },
    { name: words.reason, wide: true, cell: (task) => task.reason || words.none },
    { name: words.jobs.takes, numeric: true, cell: (task) => (task.expectedMinutes === null ? words.none : minutes(task.expectedMinutes)) },
    { name: words.jobs.latest, numeric: true, cell: (task) => day(task.latestOn) },
    { name: words.jobs.outcome, cell: (task) => outcomeOf(task, job.timeZone) },
  ];
  return (
    <section className="block">
      <h2>{words.jobs.tasks}</h2>
      {job.taskList.length === 0 ? (
        <Empty title={words.jobs.tasksNone}>{words.jobs.tasksNoneWhy}</Empty>
      ) : (
        <Sheet caption={words.jobs.tasks} columns={columns} rows={job.taskList} keyOf={(task) => task.id} />
      )}
    </section>
  );
}

const outcomeOf = ({ outcome, doneAt }: Task, timeZone: string) =>
  outcome === null ? words.jobs.outcomeOpen : doneAt === null ? outcome : words.jobs.doneAt(outcome, moment(doneAt, timeZone));
