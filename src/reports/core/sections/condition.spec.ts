import { describe, expect, test } from '@jest/globals';
import type { TrendSeries } from '../../../shared/trend-series.js';
import { DEFAULT_UNITS } from '../../../shared/unit-choice.js';
import type { TrendBlock } from '../document.js';
import { conditionSection } from './condition.js';

const DAY_MS = 86_400_000;
const NOW = new Date('2026-04-10T09:00:00Z');
/** A hundred days, each a little worse, with a forecast of what follows. */
const SERIES: TrendSeries = {
  quantity: 'cartridge-dp',
  title: 'Cartridge pressure drop',
  firstDay: '2026-01-01',
  values: Array.from({ length: 100 }, (_, at) => 20 + at),
  limit: 150,
  limitLabel: 'Change limit',
  baseline: null,
  outlook: {
    kind: 'outlook',
    p10On: '2026-05-01',
    p50On: '2026-05-11',
    p90On: '2026-05-21',
    reason: 'It rises.',
    path: [1, 20, 40].map((ahead) => ({
      day: new Date(Date.UTC(2026, 3, 10 + ahead)).toISOString().slice(0, 10),
      low: 110,
      mid: 120 + ahead,
      high: 140 + ahead,
    })),
  },
  events: [
    { at: '2026-01-15T10:00:00Z', label: 'Cartridges changed' },
    { at: '2026-03-15T10:00:00Z', label: 'Cartridges changed' },
  ],
};

function plotOf(from: string, to: string): TrendBlock {
  const blocks = conditionSection({ trends: [SERIES] }, { units: DEFAULT_UNITS, timeZone: 'UTC', now: NOW, period: { from, to } });
  const [plot] = blocks.filter((block) => block.kind === 'trend');
  if (plot === undefined) throw new Error('No plot');
  return plot;
}

describe('the plot of a period', () => {
  test('goes on into the forecast where the period reaches the last measurement', () => {
    const { sentence, trend, span } = plotOf('2026-03-01', '2026-04-30');
    expect(sentence).toBe('Expected to reach the change limit of 1.50 bar around 11 May 2026 (8 in 10 chance between 1 May 2026 and 21 May 2026).');
    expect(trend.forecast).toHaveLength(3);
    expect(span.toMs).toBeGreaterThan(Date.parse('2026-04-20'));
  });

  test('that lies in the past ends with it, and says what was measured', () => {
    const { sentence, trend, span } = plotOf('2026-01-01', '2026-02-28');
    expect(sentence).toBe('Measured on 59 of 59 days. Median of the first two weeks 0.27 bar, of the last two 0.72 bar.');
    expect([trend.forecast, trend.crossing]).toEqual([[], null]);
    expect(span).toEqual({ fromMs: Date.parse('2026-01-01'), toMs: Date.parse('2026-02-28') });
  });

  test('numbers only the events of the period', () => {
    expect(plotOf('2026-03-01', '2026-03-31').trend.events).toEqual([{ atMs: Date.parse('2026-03-15T10:00:00Z'), label: 'Cartridges changed' }]);
  });

  test('begins with the record where the period begins before it', () => {
    const { sentence, span } = plotOf('2025-12-25', '2026-01-05');
    expect(span.fromMs).toBe(Date.parse('2026-01-01'));
    expect(sentence).toBe('Measured on 5 of 12 days; median 0.22 bar.');
    expect((span.toMs - span.fromMs) / DAY_MS).toBe(4);
  });

  test('is left out where nothing was measured, and that is said', () => {
    const period = { from: '2025-01-01', to: '2025-06-30' };
    expect(conditionSection({ trends: [SERIES] }, { units: DEFAULT_UNITS, timeZone: 'UTC', now: NOW, period }).at(-1)).toEqual({
      kind: 'paragraph',
      text: 'Nothing was measured in this period.',
    });
  });
});
