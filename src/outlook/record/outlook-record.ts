import { Injectable } from '@nestjs/common';
import { group } from 'd3-array';
import { type Caller, viewOf } from '../../app/index.js';
import { type RecordFigures, recordFigures, type ScoreOfLife, wilson } from '../core/record/record-figures.js';
import { FORECAST_KINDS, OutlookRecordLineView, type OutlookRecordQuery, OutlookRecordView, PartRecordView, WorstPartView } from './record.dto.js';
import { RecordRepository, type ScoreRow } from './record.repository.js';

/** By what the forecast said at its origin: whoever reads one knows which line it belongs to. */
const REACHES = [
  { ahead: 'up to 2 weeks', most: 14 },
  { ahead: '2 to 4 weeks', most: 28 },
  { ahead: '4 to 9 weeks', most: 63 },
  { ahead: '9 weeks to 6 months', most: 182 },
  { ahead: 'over 6 months', most: Number.POSITIVE_INFINITY },
] as const;
/** With fewer independent cases a share says nothing. */
const LEAST_LIVES = 5;
const LEAST_SCORED = 5;
const MOST_PARTS = 20;

/** How right forecasts have been here. */
@Injectable()
export class OutlookRecord {
  constructor(private readonly repository: RecordRepository) {}

  async read(caller: Caller, query: OutlookRecordQuery): Promise<OutlookRecordView> {
    const rows = await this.repository.scores(caller, query);
    const lines = FORECAST_KINDS.flatMap((limitKind) => {
      const ofKind = rows.filter((row) => row.limitKind === limitKind);
      if (ofKind.length === 0) return [];
      const reaches = REACHES.map(({ ahead, most }, at) => {
        const least = REACHES[at - 1]?.most ?? -1;
        return { ahead: ahead as string, rows: ofKind.filter(({ p50Days }) => (p50Days ?? Number.MAX_VALUE) > least && (p50Days ?? Number.MAX_VALUE) <= most) };
      });
      return [{ ahead: 'all', rows: ofKind }, ...reaches.filter((reach) => reach.rows.some(({ kind }) => kind !== 'open'))].map((reach) =>
        lineOf(limitKind, reach.ahead, reach.rows),
      );
    });
    const parts = partsOf(rows);
    const [first] = parts;
    const worst =
      first === undefined
        ? null
        : viewOf(WorstPartView, { skidId: first.skidId, skidName: first.skidName, limitKind: first.limitKind, scored: first.scored, inside: first.inside });
    return viewOf(OutlookRecordView, { lines, worst, parts: parts.slice(0, MOST_PARTS) });
  }
}

function toScore({ kind, life, truthDays, errorDays, inside, saidTooEarly }: ScoreRow): ScoreOfLife {
  return { life, score: kind === 'scored' ? { kind, truthDays, errorDays, inside: inside === true } : { kind, lastedDays: truthDays, saidTooEarly } };
}

function lineOf(limitKind: OutlookRecordLineView['limitKind'], ahead: string, rows: readonly ScoreRow[]): OutlookRecordLineView {
  const figures = recordFigures(rows.map(toScore));
  const { insideRange } = figures;
  return viewOf(OutlookRecordLineView, {
    limitKind,
    ahead,
    ...figures,
    afterwards: rows.filter(({ kind, afterwards }) => kind === 'scored' && afterwards).length,
    insideRange: insideRange === null ? null : [...insideRange],
    inWords: inWords(figures),
  });
}

function inWords({ scored, lives, inside, insideRange, earlyChanges, medianErrorShare }: RecordFigures): string {
  if (scored === 0) return earlyChanges > 0 ? 'Each life ended before its limit: nothing can be said yet' : 'Nothing has come yet';
  if (lives < LEAST_LIVES) return `${lives} ${lives === 1 ? 'life' : 'lives'} only: too few to judge by`;
  const [low, high] = insideRange ?? [0, 1];
  const held = `${Math.round((100 * inside) / scored)} of 100 came when forecast, 80 should`;
  const verdict = high < 0.8 ? 'the ranges are too narrow' : low > 0.8 ? 'the ranges are wider than they need be' : `in line with that, for ${lives} lives`;
  return `${held}: ${verdict}${medianErrorShare === null ? '' : `; the middle error is ${Math.round(100 * medianErrorShare)} % of the time it took`}`;
}

/** Where the fewest held first. */
function partsOf(rows: readonly ScoreRow[]): PartRecordView[] {
  const scored = rows.filter(({ kind }) => kind === 'scored');
  const parts = [...group(scored, ({ skidId, subject, limitKind }) => `${skidId} ${subject} ${limitKind}`).values()].flatMap((own) => {
    const [first] = own;
    if (first === undefined || own.length < LEAST_SCORED) return [];
    const { skidId, skidName, subject, limitKind } = first;
    const inside = own.filter((row) => row.inside === true).length;
    const lives = new Set(own.map(({ life }) => life)).size;
    const insideRange = [...wilson(inside / own.length, lives)];
    return [viewOf(PartRecordView, { skidId, skidName, subject, limitKind, scored: own.length, lives, inside, insideRange })];
  });
  return parts.sort((one, two) => one.inside / one.scored - two.inside / two.scored);
}
