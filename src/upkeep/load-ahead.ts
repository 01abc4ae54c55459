import { Injectable } from '@nestjs/common';
import { Clock, viewOf } from '../app/index.js';
import { dayPlus } from '../shared/day.js';
import { mondayOf, WEEKS_AHEAD } from './core/work-ahead.js';
import { KindOfWorkView, LoadAheadView, type LoadQuery, TaskOfWeekView, WeekOfWorkView, type WeekQuery } from './load-ahead.dto.js';
import { LoadAheadRepository } from './load-ahead.repository.js';

const NOTE =
  'Hours of people for what rules and outlooks ask for, each task on its day and again after its interval at the pace of recent weeks; what is late stands in this week. Without breakdowns, requests and travel.';

/** The work of the coming twelve months, week by week. */
@Injectable()
export class LoadAhead {
  constructor(
    private readonly repository: LoadAheadRepository,
    private readonly clock: Clock,
  ) {}

  async read({ skidId, clientId }: LoadQuery): Promise<LoadAheadView> {
    const from = mondayOf(this.clock.now().toISOString().slice(0, 10));
    const rows = await this.repository.byWeek({ skidId, clientId }, from, dayPlus(from, 7 * WEEKS_AHEAD));
    const weeks = Array.from({ length: WEEKS_AHEAD }, (_, index) => {
      const week = dayPlus(from, 7 * index);
      const kinds = rows.filter((row) => row.week === week).map(({ kind, hours, tasks }) => viewOf(KindOfWorkView, { kind, hours, tasks }));
      return viewOf(WeekOfWorkView, { week, hours: sum(kinds, 'hours'), tasks: sum(kinds, 'tasks'), kinds });
    });
    return viewOf(LoadAheadView, { weeks, hours: sum(weeks, 'hours'), tasks: sum(weeks, 'tasks'), note: NOTE });
  }

  async week({ skidId, clientId, week }: WeekQuery): Promise<TaskOfWeekView[]> {
    const rows = await this.repository.ofWeek({ skidId, clientId }, mondayOf(week));
    return rows.flatMap(({ detail, ...about }) => detail.map((line) => viewOf(TaskOfWeekView, { ...about, ...line })));
  }
}

function sum<Field extends 'hours' | 'tasks'>(rows: readonly { readonly [F in Field]: number }[], field: Field): number {
  return rows.reduce((total, row) => total + row[field], 0);
}
