import { day, wallDay } from '../../../shared/format.js';
import { trendSentence } from '../../../shared/trend-sentence.js';
import { DIMENSION_OF, type TrendSeries } from '../../../shared/trend-series.js';
import { unitDigits, unitLabel } from '../../../shared/unit-choice.js';
import { fromStored } from '../../../shared/units.js';
import { wallClockMs } from '../../../shared/wall-clock.js';
import type { Block } from '../document.js';
import type { Manner } from '../manner.js';
import type { SkidPeriod } from '../period-data.js';
import { words } from '../words.js';

/** What is expected, with its range and why, and the work that follows from it. */
export function outlookSection({ trends, dues }: Pick<SkidPeriod, 'trends' | 'dues'>, manner: Manner): Block[] {
  const items = trends.filter(({ outlook }) => outlook !== null).map((series) => saidOf(series, manner));
  const today = wallDay(wallClockMs(manner.now.getTime(), manner.timeZone));
  return [
    { kind: 'heading', level: 2, text: words.outlook.title },
    { kind: 'paragraph', text: words.outlook.asOf(today), tone: 'soft' },
    ...(items.length > 0 ? [{ kind: 'list', items } as const] : []),
    ...duesBlocks(dues),
  ];
}

/** The sentence with the range, then the reason; of an outlook that cannot tell, the reason is the sentence. */
function saidOf(series: TrendSeries, { units }: Manner): string {
  const code = units[DIMENSION_OF[series.quantity]];
  const limit = series.limit === null ? null : fromStored(series.limit, code);
  const sentence = trendSentence(series, limit, unitLabel(code), unitDigits(code));
  const reason = series.outlook?.reason ?? '';
  return `${series.title}: ${sentence}${reason === '' || reason === sentence ? '' : ` ${reason}`}`;
}

function duesBlocks(dues: SkidPeriod['dues']): Block[] {
  if (dues.length === 0) return [{ kind: 'paragraph', text: words.outlook.nothing }];
  const { next, task, standing, best, latest, reason } = words.outlook;
  return [
    { kind: 'heading', level: 3, text: next },
    {
      kind: 'table',
      caption: next,
      columns: [task, standing, best, latest, reason].map((name) => ({ name })),
      rows: dues.map((due) => [
        due.positionName === null ? due.task : `${due.task}\n${due.positionName}`,
        { standing: due.standing },
        day(due.bestOn),
        day(due.latestOn),
        due.reason,
      ]),
    },
  ];
}
