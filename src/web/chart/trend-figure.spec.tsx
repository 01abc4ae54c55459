import { afterEach, beforeAll, describe, expect, it } from '@jest/globals';
import { cleanup, fireEvent, render, screen } from '@testing-library/react';
import type { Schemas } from '../api/client.js';
import { TrendPair } from './trend-pair.js';

const day = (offset: number) => new Date(Date.UTC(2026, 0, 1 + offset)).toISOString().slice(0, 10);
const outlook: Schemas['OutlookView'] = {
  kind: 'outlook',
  originAt: '2026-03-01T00:00:00Z',
  computedAt: '2026-03-01T00:00:00Z',
  model: 'clogging',
  modelVersion: '1',
  p10On: day(66),
  p50On: day(70),
  p90On: day(80),
  shareBeyond: 0,
  reason: 'The drop grows by a tenth a week.',
  dataUsed: [],
  path: [
    { day: day(59), low: 58, mid: 59, high: 60 },
    { day: day(79), low: 70, mid: 100, high: 140 },
  ],
};
const view: Schemas['TrendView'] = {
  quantity: 'cartridge-dp',
  title: 'Cartridge pressure drop',
  unit: 'kPa',
  firstDay: day(0),
  values: Array.from({ length: 60 }, (_, at) => (at === 30 ? null : at)),
  limit: 100,
  limitLabel: 'Change limit',
  baseline: null,
  baselineFrom: null,
  baselineAssumed: false,
  outlook,
  events: [{ at: '2026-01-11T05:00:00Z', label: 'Cartridges changed' }],
  leftOut: [],
  daysByHand: 0,
  remarks: [],
};
const show = (fields: Partial<Schemas['TrendView']> = {}) => render(<TrendPair views={[{ ...view, ...fields }]} timeZone="Europe/Madrid" />);

describe('a trend on the page', () => {
  beforeAll(() => {
    Object.defineProperty(HTMLElement.prototype, 'clientWidth', { configurable: true, value: 600 });
  });
  afterEach(cleanup);

  it('says first what is expected, in the unit of the reader', () => {
    show();
    expect(
      screen.getByText('Expected to reach the change limit of 1.00 bar around 12 Mar 2026 (8 in 10 chance between 8 Mar 2026 and 22 Mar 2026).'),
    ).toBeDefined();
  });

  it('draws the measured part, the forecast and a flag for each event', () => {
    const { container } = show();
    expect(container.querySelector('.plot-line')?.getAttribute('d')?.match(/M/g)).toHaveLength(2);
    expect(container.querySelector('.plot-band')?.getAttribute('d')).not.toBe('');
    expect(container.querySelectorAll('.plot-event')).toHaveLength(1);
    expect(screen.getByText('11 Jan 2026: Cartridges changed')).toBeDefined();
  });

  it('takes what happened on one day at the site for one event', () => {
    const clean = (at: string, chemical: string) => ({ at, label: `Recovery clean (CIP), ${chemical}` });
    show({ events: [clean('2026-01-10T23:30:00Z', 'caustic'), clean('2026-01-11T05:00:00Z', 'citric acid')] });
    expect(screen.getByText('11 Jan 2026: Recovery clean (CIP), caustic, citric acid')).toBeDefined();
  });

  it('reads out the day under the cursor, measured, missing or forecast', () => {
    show();
    const slider = screen.getByRole<HTMLInputElement>('slider');
    expect(slider.getAttribute('aria-valuetext')).toBe('1 Mar 2026: 0.59 bar');
    fireEvent.change(slider, { target: { value: '152' } });
    expect(slider.getAttribute('aria-valuetext')).toBe('31 Jan 2026: no value');
    fireEvent.change(slider, { target: { value: '400' } });
    expect(slider.getAttribute('aria-valuetext')).toMatch(/^21 Mar 2026, forecast: 1\.00 bar, likely between 0\.70 and 1\.40$/);
  });

  it('shows the same in numbers, month by month, when asked', () => {
    show();
    fireEvent(screen.getByText('Show as numbers'), new MouseEvent('click', { bubbles: true }));
    const details = screen.getByText('Show as numbers').closest('details');
    if (details) {
      details.open = true;
      fireEvent(details, new Event('toggle'));
    }
    expect(screen.getByRole('rowheader', { name: /2026-01/ })).toBeDefined();
  });

  it('says that there is nothing to draw rather than drawing nothing', () => {
    show({ firstDay: null, values: [], outlook: null });
    expect(screen.getByText(/Nothing has been measured yet/)).toBeDefined();
  });

  it('gives the reason in the place of a forecast that cannot be made', () => {
    show({ outlook: { ...outlook, kind: 'too-little-data', path: [], p10On: null, p50On: null, p90On: null, reason: 'Only three days since the change.' } });
    expect(screen.getByText('Only three days since the change.')).toBeDefined();
  });
});
