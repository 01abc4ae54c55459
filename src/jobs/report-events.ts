import type { HandEntry, WorkEvent } from '../intake/index.js';
import { isSignalCode } from '../shared/signals.js';
import { isUnitCode } from '../shared/units.js';
import type { ReportFacts, TaskOfJob } from './report-facts.repository.js';
import type { JobReportDto } from './reports.dto.js';

/** A fact of a report, and where in the report it stands. */
export interface ReportedEvent extends WorkEvent {
  readonly pointer: string;
}

/** What a report says happened, as intake takes it in. */
export function eventsOf(report: JobReportDto, { tasks, items }: Pick<ReportFacts, 'tasks' | 'items'>): ReportedEvent[] {
  const end = new Date(report.finishedAt);
  const at = (moment: string | null | undefined) => (moment == null ? end : new Date(moment));
  const done = report.tasks.filter(({ outcome }) => outcome === 'done');
  const shares = minutesByTask(report, tasks);
  return [
    ...done.flatMap(({ taskId, note = '' }): ReportedEvent[] => {
      const task = tasks.find(({ id }) => id === taskId);
      if (task === undefined) return [];
      const event = { kind: 'service', positionId: task.positionId, task: task.task, minutes: shares.get(taskId) ?? null, note: note.slice(0, 1000) } as const;
      return [{ at: end, event, pointer: `#/tasks/${report.tasks.findIndex((each) => each.taskId === taskId)}` }];
    }),
    ...report.meters.map(({ meterId, value, exchangedOldFinal }, index): ReportedEvent => {
      const pointer = `#/meters/${index}`;
      if (exchangedOldFinal == null) return { at: end, event: { kind: 'reading', meterId, value }, pointer };
      return { at: end, event: { kind: 'exchange', meterId, oldFinal: exchangedOldFinal, value }, pointer };
    }),
    ...report.cleans.map(({ kind: clean, chemical, strengthMgL = null, contactMinutes = null, note }, index): ReportedEvent => {
      return { at: end, event: { kind: 'clean', clean, chemical, strengthMgL, contactMinutes, note }, pointer: `#/cleans/${index}` };
    }),
    ...report.partsRemoved.map(({ positionId, reason, at: moment }, index): ReportedEvent => {
      return { at: at(moment), event: { kind: 'removed', positionId, reason }, pointer: `#/partsRemoved/${index}` };
    }),
    ...report.partsFitted.map(({ positionId, itemId, serialNumber = null, lot = null, setCount, removalReason = null, at: moment }, index): ReportedEvent => {
      const itemCode = items.get(itemId)?.code ?? '';
      return {
        at: at(moment),
        event: { kind: 'fitted', positionId, itemCode, serialNumber, lot, setCount, reason: removalReason },
        pointer: `#/partsFitted/${index}`,
      };
    }),
  ];
}

/** The time of the sheet by task: as it was written down, the rest shared out by the usual times of the tasks. */
function minutesByTask(report: JobReportDto, tasks: readonly TaskOfJob[]): Map<string, number> {
  const done = report.tasks.filter(({ outcome }) => outcome === 'done');
  const told = done.filter(({ minutes }) => minutes != null);
  const open = done.filter(({ minutes }) => minutes == null);
  const left = Math.max(0, report.minutes - told.reduce((sum, { minutes }) => sum + (minutes ?? 0), 0));
  const usual = (taskId: string) => tasks.find(({ id }) => id === taskId)?.expectedMinutes ?? 30;
  const all = open.reduce((sum, { taskId }) => sum + usual(taskId), 0);
  return new Map([
    ...told.map(({ taskId, minutes }) => [taskId, minutes ?? 0] as const),
    ...open.map(({ taskId }) => [taskId, all === 0 ? 0 : Math.round((left * usual(taskId)) / all)] as const),
  ]);
}

/** Gauges that were read: those of the steps, and those that were read besides. */
export function handEntryOf(report: JobReportDto, { tasks }: Pick<ReportFacts, 'tasks'>, readBy: string): HandEntry | null {
  const ofSteps = report.tasks.flatMap(({ taskId, outcome, steps }, taskAt) => {
    const task = tasks.find(({ id }) => id === taskId);
    return outcome === 'not done'
      ? []
      : steps.flatMap(({ no, outcome: answered, value, unit }, stepAt) => {
          const step = task?.steps.find((each) => each.no === no);
          const shown = unit ?? step?.unit ?? '';
          if (step?.signal == null || answered === 'skipped' || value == null || !isSignalCode(step.signal) || !isUnitCode(shown)) return [];
          return [{ signal: step.signal, value, unit: shown, column: `tasks/${taskAt}/steps/${stepAt}/value` }];
        });
  });
  const besides = report.readings.map(({ signal, value, unit }, at) => ({ signal, value, unit, column: `readings/${at}/value` }));
  // A gauge that two tasks ask for is read once: the last answer is the latest.
  const latest = [...new Map([...ofSteps, ...besides].map((reading) => [reading.signal, reading])).values()];
  const values = latest.map((reading) => ({ ...reading, smallestDivision: null, written: String(reading.value) }));
  return values.length === 0 ? null : { minutesSinceBackwash: null, note: '', readBy, values, meters: [], tanks: [] };
}
