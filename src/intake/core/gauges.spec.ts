import { describe, expect, test } from '@jest/globals';
import { expectedGauges } from './gauges.js';
import type { SkidMachines } from './skid-machines.js';
import type { TmpBasis } from './tmp.js';

const heights = { feedHeightM: null, filtrateHeightM: null, concentrateHeightM: null };
const machines = (...kinds: string[]): SkidMachines => ({
  positions: kinds.map((kind) => ({ id: kind, name: kind, kind, ended: false })),
  meters: [],
  tanks: [],
});
const signals = (basis: Pick<TmpBasis, 'scheme' | 'tmpFrom'>, ...kinds: string[]) =>
  expectedGauges({ ...basis, ...heights }, machines(...kinds)).map(({ signal }) => signal);
const REST = ['filtrate_flow', 'filtrate_total', 'temperature', 'backwash_count'];

describe('the gauges that a skid is expected to have', () => {
  test('are the pressures that its flow scheme needs', () => {
    expect(signals({ scheme: 'dead-end', tmpFrom: 'pressures' })).toEqual(['feed_pressure', 'filtrate_pressure', ...REST]);
    expect(signals({ scheme: 'cross-flow', tmpFrom: 'pressures' })).toEqual(['feed_pressure', 'filtrate_pressure', 'concentrate_pressure', ...REST]);
    expect(signals({ scheme: 'submerged', tmpFrom: 'pressures' })).toEqual(['filtrate_pressure', ...REST]);
    expect(signals({ scheme: 'cross-flow', tmpFrom: 'measured' })).toEqual(['tmp', ...REST]);
  });

  test('stand on both sides of cartridges where there are any', () => {
    expect(signals({ scheme: 'dead-end', tmpFrom: 'measured' }, 'pre-filter')).toEqual([
      'tmp',
      'cartridge_inlet_pressure',
      'cartridge_outlet_pressure',
      ...REST,
    ]);
  });

  test('show pressure in bar', () => {
    expect(expectedGauges({ scheme: 'dead-end', tmpFrom: 'pressures', ...heights }, machines())[0]?.unit).toBe('bar');
  });
});
