import { describe, expect, test } from '@jest/globals';
import type { CycleFact } from '../../intake/core/cycle-fact.js';
import { QUALITY } from '../../shared/quality.js';
import { assessCycle, type SkidBasis } from './assess-cycle.js';
import { DEFAULT_GATES, type Gates } from './gates.js';
import { leftOutText } from './left-out.js';

const basis: SkidBasis = {
  scheme: 'dead-end',
  tmpFrom: 'pressures',
  feedHeightM: null,
  filtrateHeightM: null,
  concentrateHeightM: null,
  areaM2: 600,
  referenceC: 20,
  ratedFlowM3h: 36,
  cartridgeReferenceFlowM3h: 36,
};

const cycle: CycleFact = Object.freeze({
  startedAt: new Date('2025-03-01T08:00:00Z'),
  endedAt: new Date('2025-03-01T08:30:00Z'),
  filtrationMinutes: 30,
  filtrateM3: 18,
  flowM3h: 36,
  feedKpa: 120,
  filtrateKpa: 78,
  concentrateKpa: null,
  tmpKpa: null,
  tmpStartKpa: 40,
  tmpEndKpa: 44,
  temperatureC: 12,
  cartridgeDpKpa: 25,
  feedTurbidityNtu: 3,
  quality: QUALITY.good,
  byHand: false,
});

const membrane = (change: Partial<CycleFact>, on: Partial<SkidBasis> = {}, gates: Partial<Gates> = {}) => {
  const result = assessCycle({ ...cycle, ...change }, { ...basis, ...on }, { ...DEFAULT_GATES, ...gates }).membrane;
  return result.kind === 'assessed' ? result : result.reason;
};
const cartridge = (change: Partial<CycleFact>, on: Partial<SkidBasis> = {}) => {
  const result = assessCycle({ ...cycle, ...change }, { ...basis, ...on }, DEFAULT_GATES).cartridge;
  return result.kind === 'assessed' ? result.cartridgeDpRefKpa : result.reason;
};

describe('what a cycle says about the membrane', () => {
  // 36 m³/h through 600 m² at 0.42 bar and 12 °C, calculated by another program from the same equations.
  test('is flux, pressure, permeability at the reference temperature and resistance', () => {
    expect(membrane({})).toEqual({
      kind: 'assessed',
      fluxLmh: 60,
      tmpKpa: 42,
      permeabilityLmhBar: expect.closeTo(176.01, 1),
      permeabilityStartLmhBar: expect.closeTo((176.01 * 42) / 40, 1),
      resistancePerM: expect.closeTo(2.04208e12, -8),
      temperatureC: 12,
    });
  });

  test('refers to the temperature of the basis', () => {
    expect(membrane({}, { referenceC: 25 })).toMatchObject({ permeabilityLmhBar: expect.closeTo(176.01 / 0.8886, 1) });
  });

  test.each<[string, Partial<CycleFact>, Partial<SkidBasis>]>([
    ['flagged doubtful', { quality: QUALITY.stuck }, {}],
    ['too short', { filtrationMinutes: 7 }, {}],
    ['no flow', { flowM3h: null }, {}],
    ['low flow', { flowM3h: 28.7 }, {}],
    ['low flow', { flowM3h: 0 }, { ratedFlowM3h: null }],
    ['flux off set point', { flowM3h: 30 }, {}],
    ['flux off set point', { flowM3h: 41.5 }, {}],
    ['no membrane area', {}, { areaM2: 0 }],
    ['no pressure', { filtrateKpa: null }, {}],
    ['no pressure', {}, { tmpFrom: 'measured' }],
    ['tmp out of range', { filtrateKpa: 119 }, {}],
    ['tmp out of range', { feedKpa: 60 }, {}],
    ['no temperature', { temperatureC: null }, {}],
    ['temperature out of range', { temperatureC: 53.6 }, {}],
    ['permeability not plausible', {}, { areaM2: 60 }],
  ])('is nothing: %s', (reason, change, on) => {
    expect(membrane(change, on)).toBe(reason);
    expect(leftOutText).toHaveProperty([reason]);
  });

  test('is nothing without a temperature, also when 20 °C would have been right', () => {
    expect(membrane({ temperatureC: 20 })).toMatchObject({ kind: 'assessed' });
    expect(membrane({ temperatureC: null })).toBe('no temperature');
  });

  test('counts when it replaced an earlier report, unless something else is doubtful', () => {
    expect(membrane({ quality: QUALITY.replaced })).toMatchObject({ kind: 'assessed' });
    expect(membrane({ quality: QUALITY.replaced | QUALITY.stuck })).toBe('flagged doubtful');
  });

  test('may be taken at any flux where the gates say so or no rated flow is known', () => {
    expect(membrane({ flowM3h: 42 }, {}, { fluxBandShare: null })).toMatchObject({ fluxLmh: 70 });
    expect(membrane({ flowM3h: 12 }, { ratedFlowM3h: null })).toMatchObject({ fluxLmh: 20 });
  });

  test('of a reading by hand needs no length', () => {
    expect(membrane({ filtrationMinutes: 0, byHand: true })).toMatchObject({ kind: 'assessed' });
  });

  test('has no start value where the source says none or an impossible one', () => {
    expect(membrane({ tmpStartKpa: null })).toMatchObject({ permeabilityStartLmhBar: null });
    expect(membrane({ tmpStartKpa: -3 })).toMatchObject({ permeabilityStartLmhBar: null });
  });
});

describe('what a cycle says about the cartridge', () => {
  test('is the pressure drop at reference flow and 20 °C', () => {
    expect(cartridge({})).toBeCloseTo(25 / 1.2321, 2);
    expect(cartridge({ cartridgeDpKpa: 45, flowM3h: 14, temperatureC: 8 }, { cartridgeReferenceFlowM3h: 18 })).toBeCloseTo(41.85, 2);
  });

  test('stands when the membrane is left out, and the other way round', () => {
    expect([membrane({ feedKpa: null }), typeof cartridge({ feedKpa: null })]).toEqual(['no pressure', 'number']);
    expect([membrane({ flowM3h: 25 }), typeof cartridge({ flowM3h: 25 })]).toEqual(['low flow', 'number']);
    expect(membrane({ cartridgeDpKpa: null })).toMatchObject({ kind: 'assessed' });
  });

  test.each<[string, Partial<CycleFact>, Partial<SkidBasis>]>([
    ['no pressure drop', { cartridgeDpKpa: null }, {}],
    ['flagged doubtful', { quality: QUALITY.outOfRange }, {}],
    ['pressure drop below zero', { cartridgeDpKpa: -1 }, {}],
    ['no reference flow', {}, { cartridgeReferenceFlowM3h: null }],
    ['no flow', { flowM3h: null }, {}],
    ['low flow', { flowM3h: 17 }, {}],
    ['no temperature', { temperatureC: null }, {}],
    ['temperature out of range', { temperatureC: 0 }, {}],
  ])('is nothing: %s', (reason, change, on) => {
    expect(cartridge(change, on)).toBe(reason);
  });
});
