import { describe, expect, it } from '@jest/globals';
import { missingGauges, withAdded } from './added-gauges.js';
import {
  checkEntries,
  divisionOf,
  gaugeField,
  levelField,
  meterField,
  readDecimal,
  type Sheet,
  startEntries,
  strengthField,
  toReading,
} from './hand-fields.js';

const gauge = (signal: 'feed_pressure' | 'temperature', label: string, smallestDivision: number | null) => ({
  signal,
  label,
  unit: 'bar' as const,
  unitLabel: 'bar',
  smallestDivision,
  lastValue: null,
  lastAt: null,
  caution: null,
});
const sheet: Sheet = {
  skidId: 's',
  skidName: 'UF-1',
  siteName: 'Works',
  timeZone: 'Europe/Madrid',
  asksMinutesSinceBackwash: true,
  gauges: [gauge('feed_pressure', 'Feed pressure', 0.05), gauge('temperature', 'Water temperature', null)],
  meters: [{ meterId: 'm', label: 'Feed pump: run hours', kind: 'run hours', lastValue: null, lastAt: null }],
  tanks: [{ tankId: 't', label: 'Hypochlorite', chemical: 'NaOCl', heightM: 1, lastLevelM: null, lastStrengthGL: null, lastAt: null }],
  cautions: [],
};
const start = startEntries(sheet, '2026-11-24T06:00', 'Ada Brisk');

describe('numbers as people write them', () => {
  it('takes a decimal comma for a decimal point', () => {
    expect(readDecimal(' 0,94 ')).toBe(0.94);
    expect(readDecimal('-3.5')).toBe(-3.5);
  });

  it('does not take what is no number', () => {
    for (const text of ['', '1.2.3', '6l', '1e3', '1,000,000']) expect(readDecimal(text)).toBeUndefined();
  });

  it('knows what the last digit stands for', () => {
    expect(divisionOf('0.80')).toBeCloseTo(0.01);
    expect(divisionOf('2,5')).toBeCloseTo(0.1);
    expect(divisionOf('140')).toBe(1);
  });
});

describe('a reading by hand', () => {
  it('holds what was filled in and nothing else', () => {
    const { reading } = toReading(sheet, { ...start, [gaugeField('temperature')]: '12,5', [meterField('m')]: '18342' });
    expect(reading).toEqual({
      at: '2026-11-24T06:00',
      values: [{ signal: 'temperature', unit: 'bar', value: 12.5, smallestDivision: 0.1 }],
      meters: [{ meterId: 'm', value: 18342 }],
      tanks: [],
      readBy: 'Ada Brisk',
    });
  });

  it('gives the division of the gauge where it is known', () => {
    const { reading } = toReading(sheet, { ...start, [gaugeField('feed_pressure')]: '1.4' });
    expect(reading.values?.[0]?.smallestDivision).toBe(0.05);
  });

  it('sends the level of a tank in the unit of the dip stick', () => {
    const { reading } = toReading(sheet, { ...start, [levelField('t')]: '62', [strengthField('t')]: '118' });
    expect(reading.tanks).toEqual([{ tankId: 't', levelCm: 62, strengthGL: 118 }]);
  });

  it('leads a refusal back to the field that it is about', () => {
    const { fieldAt } = toReading(sheet, { ...start, [gaugeField('temperature')]: '999', [meterField('m')]: '1', [levelField('t')]: '900' });
    expect(fieldAt('#/readings/0/values/0')).toBe(gaugeField('temperature'));
    expect(fieldAt('#/readings/0/meters/0/value')).toBe(meterField('m'));
    expect(fieldAt('#/readings/0/tanks/0/strengthGL')).toBe(strengthField('t'));
    expect(fieldAt('#/readings/0/at')).toBe('at');
  });

  it('is refused before it is sent when it holds no value, or one that is no number', () => {
    expect(Object.keys(checkEntries(sheet, start))).toEqual([gaugeField('feed_pressure')]);
    expect(checkEntries(sheet, { ...start, [meterField('m')]: '18 342x' })[meterField('m')]).toContain('Feed pump');
    expect(checkEntries(sheet, { ...start, [meterField('m')]: '18342' })).toEqual({});
  });
});

describe('a gauge that the sheet does not ask for', () => {
  const units = { pressure: '[psi]', flow: 'm3/h', temperature: 'Cel', permeability: 'L/m2/h/bar' } as const;

  it('is added by the reader, in the unit of their choice, and is then a field like the others', () => {
    expect(missingGauges(sheet)).toContain('tmp');
    const more = withAdded(sheet, { ...start, [gaugeField('tmp')]: '' }, units);
    expect(more.gauges.at(-1)).toMatchObject({ signal: 'tmp', label: 'Transmembrane pressure', unit: '[psi]' });
    expect(missingGauges(more)).not.toContain('tmp');
  });

  it('does not come twice, and is none of a machine', () => {
    expect(withAdded(sheet, { ...start, [gaugeField('temperature')]: '12' }, units).gauges).toHaveLength(2);
    expect(missingGauges(sheet)).not.toContain('run_hours');
  });
});
