import { Injectable } from '@nestjs/common';
import { type Caller, NotFound, viewOf } from '../../app/index.js';
import { dayPlus } from '../../shared/day.js';
import { PastForecastView } from './past.dto.js';
import { PastRepository } from './past.repository.js';
import type { ForecastKind } from './record.dto.js';

/** What was forecast for a skid week by week, beside what came. */
@Injectable()
export class PastForecasts {
  constructor(private readonly repository: PastRepository) {}

  async read(caller: Caller, skidId: string, limitKind: ForecastKind): Promise<PastForecastView[]> {
    const rows = await this.repository.read(caller, skidId, limitKind);
    if (rows === undefined) throw new NotFound('skid', skidId);
    return rows.map(({ p10Days, p50Days, p90Days, ...row }) => {
      const on = (days: number | null) => (days === null ? null : dayPlus(row.originOn, Math.round(days)));
      return viewOf(PastForecastView, { ...row, p10On: on(p10Days), p50On: on(p50Days), p90On: on(p90Days) });
    });
  }
}
