import type { SheetStep } from '../../shared/task-sheet.js';
import { inUnitOfStep } from './in-unit-of-step.js';

/** Something that keeps a report from counting: the field, and what is wrong and how to mend it. */
export interface ReportProblem {
  /** JSON pointer into the report */
  readonly pointer: string;
  readonly message: string;
}

interface StepAnswer {
  readonly no: number;
  readonly outcome: 'done' | 'skipped';
  readonly value?: number | null;
  readonly unit?: string | null;
  readonly yes?: boolean | null;
  readonly why?: string;
}

export interface ReportToJudge {
  readonly startedAt: string;
  readonly finishedAt: string;
  readonly outcome: 'finished' | 'to be continued';
  readonly signedBy: string;
  readonly tasks: readonly {
    readonly taskId: string;
    readonly outcome: 'done' | 'not done';
    readonly whyNot?: string;
    readonly steps: readonly StepAnswer[];
  }[];
  readonly meters: readonly { readonly meterId: string; readonly value: number; readonly exchangedOldFinal?: number | null }[];
}

export interface TaskToDo {
  readonly id: string;
  readonly task: string;
  readonly steps: readonly SheetStep[];
}

export interface MeterBefore {
  readonly id: string;
  readonly kind: string;
  readonly positionName: string;
  readonly modulus: number | null;
  readonly value: number | null;
  readonly at: Date | null;
}

/** The clocks of two devices differ a little. */
const CLOCK_TOLERANCE_MS = 5 * 60_000;
/** Hour meters run on while the day is written down. */
const HOURS_TOLERANCE = 0.5;

/**
 * Whatever keeps a report from counting: times that cannot be, tasks without an answer, a safety step left out without a reason, a reading without its value, a meter that
 * went backwards or ran faster than the clock, no signature. A value outside its limits is no problem of the report: it is marked, and kept.
 *
 * Source: safety steps and meters, common practice; run hours cannot rise faster than the clock.
 *
 * @example judgeReport({ startedAt: '2026-11-25T08:00:00Z', finishedAt: '2026-11-25T09:00:00Z', outcome: 'finished', signedBy: 'A. Person', tasks: [], meters: [] }, { tasks: [], meters: [], now: new Date('2026-11-25T10:00:00Z') }) // => []
 */
export function judgeReport(
  report: ReportToJudge,
  known: { readonly tasks: readonly TaskToDo[]; readonly meters: readonly MeterBefore[]; readonly now: Date },
): ReportProblem[] {
  return [...ofTimes(report, known.now), ...ofTasks(report, known.tasks), ...ofMeters(report, known.meters), ...ofSignature(report)];
}

function ofTimes({ startedAt, finishedAt }: ReportToJudge, now: Date): ReportProblem[] {
  const [start, end] = [new Date(startedAt).getTime(), new Date(finishedAt).getTime()];
  if (end > now.getTime() + CLOCK_TOLERANCE_MS) {
    return [{ pointer: '#/finishedAt', message: `${finishedAt} lies in the future: check the clock of the device, and say when the work ended` }];
  }
  return end < start ? [{ pointer: '#/finishedAt', message: `${finishedAt} is before the work began, ${startedAt}` }] : [];
}

function ofTasks({ tasks, outcome }: ReportToJudge, toDo: readonly TaskToDo[]): ReportProblem[] {
  const answered = tasks.flatMap((answer, at) => {
    const task = toDo.find(({ id }) => id === answer.taskId);
    const pointer = `#/tasks/${at}`;
    if (task === undefined) return [{ pointer: `${pointer}/taskId`, message: `${answer.taskId} is no task of this job that is still to be done` }];
    if (tasks.findIndex(({ taskId }) => taskId === answer.taskId) < at) return [{ pointer: `${pointer}/taskId`, message: `${task.task} is answered twice` }];
    if (answer.outcome === 'done') return ofSteps(task, answer.steps, `${pointer}/steps`);
    return isBlank(answer.whyNot) ? [{ pointer: `${pointer}/whyNot`, message: `say why ${task.task} was not done` }] : [];
  });
  if (outcome !== 'finished') return answered;
  const open = toDo.filter(({ id }) => !tasks.some(({ taskId }) => taskId === id));
  return [...answered, ...open.map(({ task }) => ({ pointer: '#/tasks', message: `say of ${task} whether it was done` }))];
}

function ofSteps({ steps }: TaskToDo, answers: readonly StepAnswer[], pointer: string): ReportProblem[] {
  const ofAnswers = answers.flatMap((answer, at): ReportProblem[] => {
    const step = steps.find(({ no }) => no === answer.no);
    if (step === undefined) return [{ pointer: `${pointer}/${at}/no`, message: `the task sheet has no step ${answer.no}` }];
    if (answer.outcome === 'skipped') {
      return step.safety && isBlank(answer.why)
        ? [{ pointer: `${pointer}/${at}/why`, message: `step ${step.no} keeps people or water safe (${step.text}): say why it was left out` }]
        : [];
    }
    if (step.kind === 'reading' && answer.value == null)
      return [{ pointer: `${pointer}/${at}/value`, message: `enter what step ${step.no} read (${step.text})` }];
    if (answer.value != null && inUnitOfStep(answer.value, answer.unit, step.unit) === null) {
      return [{ pointer: `${pointer}/${at}/unit`, message: `step ${step.no} is read in ${step.unit}, and ${answer.unit} does not measure the same` }];
    }
    return step.kind === 'check' && answer.yes == null
      ? [{ pointer: `${pointer}/${at}/yes`, message: `answer step ${step.no} with yes or no (${step.text})` }]
      : [];
  });
  const silent = steps.filter(({ safety, no }) => safety && !answers.some((answer) => answer.no === no));
  return [
    ...ofAnswers,
    ...silent.map(({ no, text }) => ({ pointer, message: `step ${no} keeps people or water safe (${text}): do it, or say why it was left out` })),
  ];
}

function ofMeters({ meters, finishedAt }: ReportToJudge, before: readonly MeterBefore[]): ReportProblem[] {
  return meters.flatMap(({ meterId, value, exchangedOldFinal = null }, at): ReportProblem[] => {
    const meter = before.find(({ id }) => id === meterId);
    const pointer = `#/meters/${at}/value`;
    if (meter === undefined) return [{ pointer: `#/meters/${at}/meterId`, message: `${meterId} is no meter of this skid` }];
    if (meter.value === null || meter.at === null) return [];
    const read = exchangedOldFinal ?? value;
    const day = meter.at.toISOString().slice(0, 10);
    const clockHours = (new Date(finishedAt).getTime() - meter.at.getTime()) / 3_600_000;
    const name = `${meter.kind} of ${meter.positionName}`;
    if (read < meter.value) {
      const rolled = meter.modulus === null ? null : read + meter.modulus - meter.value;
      if (rolled !== null && (meter.kind !== 'run hours' || rolled <= clockHours + HOURS_TOLERANCE)) return [];
      const field = exchangedOldFinal === null ? pointer : `#/meters/${at}/exchangedOldFinal`;
      return [{ pointer: field, message: `${name}: ${read} is lower than ${meter.value}, read on ${day}. Read it again, or say that the meter was exchanged` }];
    }
    if (meter.kind !== 'run hours' || read - meter.value <= clockHours + HOURS_TOLERANCE) return [];
    const most = Math.floor(meter.value + Math.max(0, clockHours));
    return [{ pointer, message: `${name}: ${read} is more than the clock allows since ${meter.value} on ${day}; it can be ${most} at most. Read it again` }];
  });
}

function ofSignature({ signedBy, outcome }: ReportToJudge): ReportProblem[] {
  return outcome === 'finished' && isBlank(signedBy)
    ? [{ pointer: '#/signedBy', message: 'the sheet is not signed: enter the name of whoever signs for the work' }]
    : [];
}

const isBlank = (text: string | undefined): boolean => text === undefined || text.trim() === '';
