import { readFileSync } from 'node:fs';
import { describe, expect, test } from '@jest/globals';
import { averageDailyUse } from '../../src/condition/core/daily-use.js';
import { lifeByMeter, type MeterEvent } from '../../src/condition/core/meter.js';
import { backlogs, weeklyCrewHours } from '../../src/jobs/core/indicators/backlog.js';
import { doneInTime } from '../../src/jobs/core/indicators/done-in-time.js';
import { dueDate, usualGraceDays } from '../../src/upkeep/core/due-date.js';
import { nextDueAt } from '../../src/upkeep/core/next-due-at.js';
import { relubricationHours } from '../../src/upkeep/core/relubrication.js';
import { haveOpenData } from './open-data.js';

const FILE = 'meter_pm_vectors.json';

interface Vector {
  readonly name: string;
  readonly inputs: Readonly<Record<string, unknown>>;
  readonly expect: Readonly<Record<string, unknown>>;
}
const have = haveOpenData(FILE);
const vectors: Vector[] = have ? JSON.parse(readFileSync(`../shared/data/${FILE}`, 'utf8')) : [];
const at = (text: string) => new Date(`${text.length > 10 ? text : `${text}T00:00`}:00Z`);
const NOW = new Date('2026-01-01T00:00:00Z');
const number = (value: unknown) => Number(value);

/** What each kind of vector says of the real code, told apart by what it expects. */
const CHECKS: readonly [(vector: Vector) => boolean, (vector: Vector) => void][] = [
  [
    ({ expect: want }) => want.due !== undefined,
    ({ inputs, expect: want }) => {
      const { H, D, last_cum, last_date, now_cum, now_date, adu } = inputs;
      const rule = { use: { 'run hours': number(H) }, days: number(D), base: 'floating', graceDays: 0 } as const;
      const last = { day: String(last_date), use: { 'run hours': number(last_cum) } };
      const due = dueDate(rule, last, { 'run hours': { life: number(now_cum), asOf: String(now_date), dailyUse: number(adu) } }, String(now_date));
      expect([due.dueOn, due.limit]).toEqual([want.due, want.limit === 'meter' ? 'run hours' : want.limit]);
      expect(due.byLimit).toMatchObject([{ left: want.hours_left, dueOn: want.meter_due }, { dueOn: want.calendar_due }]);
    },
  ],
  [
    ({ expect: want }) => want.increments_total !== undefined,
    ({ inputs, expect: want }) => {
      const rows = inputs.events as [string, string, number & [number, number]][];
      const events = rows.map(
        ([day, kind, value]): MeterEvent =>
          kind === 'replace' ? { kind: 'exchange', at: at(day), oldFinal: value[0], newInitial: value[1] } : { kind: 'reading', at: at(day), value },
      );
      const { points, rejected } = lifeByMeter(events, { modulus: number(inputs.modulus), mostPerHour: 1 }, NOW);
      expect(rejected).toEqual([]);
      expect(points.map((point) => [point.at.toISOString().slice(0, 10), point.life])).toEqual(want.series);
      expect(points.at(-1)?.life).toBe(want.increments_total);
      const use = averageDailyUse(points, { windowDays: 60, leastDays: 7, mostPerDay: 24 });
      expect(use.kind === 'daily-use' && use.perDay).toBeCloseTo(number(want.adu), 5);
    },
  ],
  [
    ({ expect: want }) => want.valid === false,
    ({ inputs }) => {
      const [before, after] =
        typeof inputs.prev === 'number'
          ? [
              ['2025-03-01T00:00', inputs.prev],
              ['2025-03-02T00:00', inputs.next],
            ]
          : [inputs.prev as unknown[], inputs.next as unknown[]];
      const events = [before, after].map((row): MeterEvent => ({ kind: 'reading', at: at(String(row?.[0])), value: number(row?.[1]) }));
      const { rejected } = lifeByMeter(events, { modulus: number(inputs.modulus ?? 100_000), mostPerHour: 1 }, NOW);
      expect(rejected).toHaveLength(1);
    },
  ],
  [
    ({ expect: want }) => want.next_due_at !== undefined,
    ({ name, inputs, expect: want }) => {
      const { due_at, done_at, interval } = inputs;
      const base = name.startsWith('fixed') ? 'fixed' : 'floating';
      expect(nextDueAt({ base, plannedAt: number(due_at), doneAt: number(done_at), interval: number(interval) })).toBe(want.next_due_at);
    },
  ],
  [
    ({ expect: want }) => want.grace_days_published !== undefined,
    ({ inputs, expect: want }) => expect(usualGraceDays(number(inputs.interval_days))).toBe(want.grace_days_published),
  ],
  [
    ({ expect: want }) => want.pct !== undefined,
    ({ inputs, expect: want }) => expect(doneInTime(number(inputs.done_on_time), number(inputs.due)).value).toBe(want.pct),
  ],
  [
    ({ expect: want }) => want.hours !== undefined,
    ({ name, expect: want }) => {
      const kind = name.includes('ball') ? 'deep-groove ball' : 'cylindrical roller';
      const found = relubricationHours({ kind, speedPerMin: number(/n=(\d+)/.exec(name)?.[1]), boreMm: number(/d=(\d+)/.exec(name)?.[1]) });
      expect(found.kind === 'hours' && found.hours).toBeCloseTo(number(want.hours), 6);
    },
  ],
  [
    ({ expect: want }) => want.weeks !== undefined,
    ({ inputs, expect: want }) => {
      const work = { readyHours: number(inputs.ready_work_h), waitingHours: number(inputs.planned_work_h), untimedTasks: 0 };
      expect(weeklyCrewHours(number(inputs.crew))).toBe(number(inputs.crew) * number(inputs.hours_per_week) * number(inputs.productive_share));
      expect(backlogs(work, weeklyCrewHours(number(inputs.crew)))[0].value).toBe(want.weeks);
    },
  ],
];

(have ? describe : describe.skip)('every stored vector of meters, due days, grace and indicators', () => {
  test('is one of 26, and of a kind that is checked', () => {
    expect(vectors).toHaveLength(26);
    expect(vectors.filter((vector) => !CHECKS.some(([isOfKind]) => isOfKind(vector))).map(({ name }) => name)).toEqual([]);
  });

  for (const vector of vectors) {
    test(vector.name, () => {
      const [, check] = CHECKS.find(([isOfKind]) => isOfKind(vector)) ?? [];
      expect(check).toBeDefined();
      check?.(vector);
    });
  }
});
