import { describe, expect, test } from '@jest/globals';
import { type DeliveryToCheck, deliveryFaults } from './delivery-faults.js';

const faults = (given: Partial<DeliveryToCheck>) =>
  deliveryFaults({
    chemicalOfTank: 'sodium hypochlorite',
    capacityL: 500,
    usualGL: 125,
    product: 'NaOCl 12.5 %',
    volumeL: 200,
    strengthGL: 122,
    strengthConfirmed: false,
    ...given,
  });

describe('a delivery before it is poured', () => {
  test('passes where product, volume and strength fit', () => {
    expect(faults({})).toEqual([]);
    expect(faults({ product: null, strengthGL: null })).toEqual([]);
    expect(faults({ chemicalOfTank: 'antiscalant', product: 'AS 40', usualGL: null })).toEqual([]);
  });

  test('is refused where the product must not meet what the tank holds, whatever is confirmed', () => {
    expect(faults({ product: 'Hydrochloric acid 32 %', strengthConfirmed: true })[0]?.message).toMatch(
      /must never go into a tank of sodium hypochlorite: chlorine gas/,
    );
    expect(faults({ product: 'Blue label', strengthConfirmed: true })[0]?.message).toMatch(/write the chemical as the safety data sheet names it/);
    expect(faults({ product: 'sodium hydroxide 50 %' })[0]?.message).toMatch(/is not what this tank holds/);
  });

  test('is asked about where the strength is not that of the tank', () => {
    expect(faults({ strengthGL: 62 })[0]).toMatchObject({ field: 'strengthGL', message: expect.stringMatching(/50 % below the usual 125 g\/L/) });
    expect(faults({ strengthGL: 12.5 })[0]?.message).toMatch(/ten times it would fit/);
    expect(faults({ strengthGL: 62, strengthConfirmed: true })).toEqual([]);
  });

  test('is refused where the tank is too small', () => {
    expect(faults({ volumeL: 501 })[0]).toMatchObject({ field: 'volumeL', message: expect.stringMatching(/501 L is more than the tank holds \(500 L\)/) });
  });
});
