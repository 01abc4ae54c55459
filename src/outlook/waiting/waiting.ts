import { Injectable } from '@nestjs/common';
import { NotFound, viewOf } from '../../app/index.js';
import { dayPlus } from '../../shared/day.js';
import { DAYS_AHEAD } from '../core/horizon.js';
import { excessPressure } from '../core/waiting/excess-pressure.js';
import { metByGrid } from '../core/waiting/met-by-grid.js';
import { type WaitingCost, waitingCost } from '../core/waiting/waiting-cost.js';
import { waitingInWords } from '../core/waiting/waiting-in-words.js';
import { WaitingPointView, WaitingView } from './waiting.dto.js';
import { WaitingRepository, type WaitingRow } from './waiting.repository.js';

const HOURS_A_DAY = 24;
const LITRES_PER_M3 = 1000;

/** Of an outlook: day by day from its origin on, in the reckoning currency. */
export interface ExtraByDay {
  readonly originDay: string;
  readonly extra: readonly number[];
}

/** What waiting with a part costs, from its stored outlook and the prices of its item and site. Reckoned when it is asked for: prices may change at any time. */
@Injectable()
export class Waiting {
  constructor(private readonly repository: WaitingRepository) {}

  async ofSkid(skidId: string): Promise<WaitingView[]> {
    const ids = await this.repository.presentOf(skidId);
    if (ids === undefined) throw new NotFound('skid', skidId);
    return (await this.repository.facts(ids)).map(toView);
  }

  /** What acting on each day costs more than on the cheapest, by outlook; outlooks without a forecast or without prices are not among them. */
  async extraByDay(outlookIds: readonly string[]): Promise<Map<string, ExtraByDay>> {
    if (outlookIds.length === 0) return new Map();
    const rows = await this.repository.facts(outlookIds);
    return new Map(
      rows.flatMap((row) => {
        if (row.kind === 'too-little-data') return [];
        const cost = costOf(row);
        if (cost.kind === 'prices-missing') return [];
        return [[row.outlookId, { originDay: row.originDay, extra: cost.points.map(({ extra }) => extra) }] as const];
      }),
    );
  }

  /** In words, by outlook. */
  async inWords(outlookIds: readonly string[]): Promise<Map<string, string>> {
    const rows = await this.repository.facts(outlookIds);
    return new Map(rows.map((row) => [row.outlookId, toView(row).inWords]));
  }
}

function toView(row: WaitingRow): WaitingView {
  const { subject, limitKind, currency, originDay } = row;
  const base = { subject, limitKind, currency, cheapestOn: null, missing: [], notCounted: [], points: [] };
  if (row.kind === 'too-little-data') {
    return viewOf(WaitingView, { ...base, kind: 'no-forecast', inWords: 'Without a forecast nobody can say what waiting costs.' });
  }
  const cost = costOf(row);
  const inWords = waitingInWords(cost, row);
  if (cost.kind === 'prices-missing') return viewOf(WaitingView, { ...base, kind: cost.kind, inWords, missing: [...cost.missing] });
  const { cheapestDay, points, notCounted } = cost;
  const shown = new Set([0, cheapestDay, ...DAYS_AHEAD]);
  return viewOf(WaitingView, {
    ...base,
    kind: cost.kind,
    inWords,
    cheapestOn: dayPlus(originDay, cheapestDay),
    notCounted: [...notCounted],
    points: points.flatMap(({ dayAhead, ...terms }) => (shown.has(dayAhead) ? [viewOf(WaitingPointView, { on: dayPlus(originDay, dayAhead), ...terms })] : [])),
  });
}

function costOf(row: WaitingRow): WaitingCost {
  const { renewal, unplanned, energyKwh, waterM3, lostShare, dailyLoadM3, ratedFlowM3h, areaM2 } = row;
  // A machine takes no more energy for what this knows of.
  const isLife = row.limitKind === 'life';
  const hourly = ratedFlowM3h ?? (dailyLoadM3 === null ? null : dailyLoadM3 / HOURS_A_DAY);
  return waitingCost({
    met: metByGrid(row.kind === 'limit-met' ? [] : row.metByDay),
    ageDays: row.ageDays ?? 0,
    prices: { renewal, unplanned, energyKwh: isLife ? 0 : energyKwh, waterM3 },
    dailyVolumeM3: isLife ? (dailyLoadM3 ?? 0) : dailyLoadM3,
    excessKpa: isLife
      ? () => 0
      : excessPressure({ ...row, fluxLmh: hourly === null || areaM2 === null || areaM2 <= 0 ? null : (LITRES_PER_M3 * hourly) / areaM2 }),
    lostShare,
  });
}
