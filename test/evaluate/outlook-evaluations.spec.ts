import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, test } from '@jest/globals';
import * as cartridge from '../../src/evaluate/cartridge/index.js';
import type { Figure, Values } from '../../src/evaluate/evaluation.js';
import * as membrane from '../../src/evaluate/membrane/index.js';
import { dayPlus } from '../../src/shared/day.js';

const folder = mkdtempSync(join(tmpdir(), 'evaluate-'));
afterAll(() => rmSync(folder, { recursive: true }));

function table(name: string, rows: readonly (readonly (string | number)[])[]): string {
  const file = join(folder, name);
  writeFileSync(file, rows.map((row) => row.join(',')).join('\n'));
  return file;
}

async function figuresOf(what: { evaluate: typeof membrane.evaluate }, values: Values): Promise<Figure[]> {
  const figures: Figure[] = [];
  await what.evaluate(values, (line) => figures.push(line as Figure));
  return figures;
}

/** Three units that lose 0.2 % of their flux a day, are cleaned every 100 days and come back whole; each a little noisy in its own way. */
function unitsFile(declines: readonly number[] = [0.002, 0.002, 0.002]): string {
  const rows = declines.flatMap((decline, unit) =>
    Array.from({ length: 300 }, (_, day) => {
      const ripple = 1 + 0.004 * Math.sin((2.4 + unit / 7) * day);
      return [dayPlus('2024-01-01', day), `U${unit + 1}`, Number(day % 100 === 0 && day > 0), 0.1 * Math.exp(-decline * (day % 100)) * ripple];
    }),
  );
  return table(`units-${declines.join('-')}.csv`, [['date', 'unit', 'cip', 'area_weighted_specific_flux'], ...rows]);
}

const middle = (figures: readonly Figure[], measure: string, method: string, more: Partial<Figure>) =>
  figures.find((one) => one.measure === measure && one.method === method && Object.entries(more).every(([name, value]) => one[name] === value))?.value ?? NaN;

describe('the evaluation of membrane units', () => {
  test('finds a decline that all units share, and says what simple methods make of it', async () => {
    const figures = await figuresOf(membrane, { units: unitsFile() });
    const at30 = { case: 'unit-unseen', at: 30, units: 'pooled' };
    expect(middle(figures, 'mdape_ahead', 'ours', at30)).toBeLessThan(1);
    expect(middle(figures, 'mdape_ahead', 'no change', at30)).toBeGreaterThan(4);
    expect(middle(figures, 'mdape_remaining', 'ours', { at: 0.5 })).toBeLessThan(40);
    expect(figures.every(({ value, n }) => (value === null || Number.isFinite(value)) && (n ?? 0) > 0)).toBe(true);
  });

  test('with a file to learn from, learns there alone', async () => {
    const [units, train] = [unitsFile(), unitsFile([0, 0])];
    const known = middle(await figuresOf(membrane, { units }), 'mdape_ahead', 'ours', { at: 30, case: 'unit-unseen', units: 'pooled' });
    const figures = await figuresOf(membrane, { units, train });
    expect(figures.every((one) => one.case === 'train-test')).toBe(true);
    expect(middle(figures, 'mdape_ahead', 'ours', { at: 30, units: 'pooled' })).toBeGreaterThan(known);
  });

  test('says what a file lacks', async () => {
    const file = table('short.csv', [
      ['date', 'unit', 'cip'],
      ['2024-01-01', 'U1', 0],
    ]);
    await expect(figuresOf(membrane, { units: file })).rejects.toThrow(/has none of area_weighted_specific_flux, unit_n_delta_p/);
    await expect(figuresOf(membrane, {})).rejects.toThrow('--units is needed');
  });
});

describe('the evaluation of cartridge sets', () => {
  /** Four sets whose pressure drop grows from 2 as the cube of their days and is changed at 8. */
  const series = () =>
    table('cartridges.csv', [
      ['date', 'cartridge_dp_psi'],
      ...[80, 90, 100, 85].flatMap((life, set) =>
        Array.from({ length: life }, (_, day) => [dayPlus('2024-01-01', 120 * set + day), 2 + 6 * (day / life) ** 3 + 0.01 * Math.sin(day)]),
      ),
    ]);

  test('prints each case and the middle of all, and lives of other sets help', async () => {
    const figures = await figuresOf(cartridge, { series: series(), thresholds: '6' });
    const cases = new Set(figures.filter(({ measure }) => measure === 'ape_to_threshold').map((one) => one.case));
    expect(cases.size).toBe(4);
    expect(middle(figures, 'mdape_to_threshold', 'ours', { at: 0.5 })).toBeLessThan(30);
    expect(middle(figures, 'mdape_to_threshold', 'ours', { at: 0.5 })).toBeLessThan(middle(figures, 'mdape_to_threshold', 'straight line', { at: 0.5 }));
  });

  test('says when no set meets the threshold', async () => {
    await expect(figuresOf(cartridge, { series: series(), thresholds: '60' })).rejects.toThrow(/holds no set that meets 60/);
    await expect(figuresOf(cartridge, { series: series(), thresholds: 'six' })).rejects.toThrow(/must be numbers above 0/);
  });
});
