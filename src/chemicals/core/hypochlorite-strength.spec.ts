import { describe, expect, test } from '@jest/globals';
import fc from 'fast-check';
import { daysToShare, freshIonicStrengthM, lossPerDay, lossRatePerMolS, mixedStrengthGL, strengthAfterGL } from './hypochlorite-strength.js';

const celsius = (fahrenheit: number) => ((fahrenheit - 32) * 5) / 9;

describe('the loss of strength of hypochlorite', () => {
  // Computed apart from the published constants of Adam and Gordon (1999): these check the code, not the constants.
  test.each([
    [0, 15, 2.357e-9],
    [0, 20, 4.95e-9],
    [0, 25, 1.0143e-8],
    [0, 30, 2.03e-8],
    [0, 35, 3.975e-8],
    [4, 20, 1.953e-8],
    [4, 25, 4.001e-8],
    [4, 35, 1.568e-7],
  ])('rate constant at ionic strength %d and %d °C', (ionic, temperature, rate) => {
    expect(Math.abs(lossRatePerMolS(temperature, ionic) / rate - 1)).toBeLessThan(5e-4);
  });

  test('has the activation energy that Lister (1956) measured, 24.8 kcal/mol', () => {
    const [cold, warm] = [288.15, 308.15];
    const joules = (8.314 * Math.log(lossRatePerMolS(35, 0) / lossRatePerMolS(15, 0))) / (1 / cold - 1 / warm);
    expect(Math.abs(joules / 4184 - 24.8)).toBeLessThan(0.2);
  });

  // Computed apart from the same formula.
  test.each([
    [150, 20, 250],
    [125, 15, 803],
    [125, 20, 382],
    [125, 25, 187],
    [125, 30, 93],
    [100, 25, 297],
    [50, 25, 964],
    [50, 40, 128],
  ])('half-life of %d g/L at %d °C is %d days', (strength, temperature, days) => {
    expect(Math.abs(daysToShare(strength, 0.5, temperature) - days)).toBeLessThan(1);
  });

  test.each([
    [125, 15, 89],
    [125, 20, 42.5],
    [125, 25, 20.7],
    [125, 30, 10.4],
    [50, 20, 219],
  ])('%d g/L at %d °C keeps nine tenths for %d days', (strength, temperature, days) => {
    expect(Math.abs(daysToShare(strength, 0.9, temperature) / days - 1)).toBeLessThan(0.01);
  });

  // A community table built on published rate constants gives 6.68, 9.18 and 11.11 trade %: within 5 %.
  test.each([
    [100, 6.56, 6.68],
    [85, 9.63, 9.18],
    [70, 11.44, 11.11],
  ])('12.5 trade %% after a month at %d °F', (fahrenheit, computed, table) => {
    const trade = strengthAfterGL(125, 30, celsius(fahrenheit)) / 10;
    expect(trade).toBeCloseTo(computed, 2);
    expect(Math.abs(trade / table - 1)).toBeLessThan(0.05);
  });

  test('diluted to half, 125 g/L at 25 °C loses its share 3.66 times more slowly', () => {
    expect(lossPerDay(125, 25) / lossPerDay(62.5, 25)).toBeCloseTo(3.66, 2);
  });

  test('ageing in steps with its own ionic strength is ageing at once', () => {
    const ionic = freshIonicStrengthM(125);
    const inSteps = strengthAfterGL(strengthAfterGL(125, 20, 25), 40, 25, ionic);
    expect(inSteps).toBeCloseTo(strengthAfterGL(125, 60, 25), 9);
  });

  test('is greater when stored longer or warmer, and never below nothing', () => {
    const days = fc.double({ min: 0, max: 400, noNaN: true });
    const temperature = fc.double({ min: 5, max: 40, noNaN: true });
    fc.assert(
      fc.property(fc.double({ min: 5, max: 160, noNaN: true }), days, temperature, (strength, time, degrees) => {
        const left = strengthAfterGL(strength, time, degrees);
        expect(left > 0 && left <= strength).toBe(true);
        expect(strengthAfterGL(strength, time + 1, degrees)).toBeLessThan(left);
        expect(strengthAfterGL(strength, time, degrees + 1)).toBeLessThanOrEqual(left);
      }),
      { numRuns: 60 },
    );
  });

  test('a refill mixes by volume', () => {
    expect(
      mixedStrengthGL([
        { volumeL: 50, strengthGL: 80 },
        { volumeL: 150, strengthGL: 125 },
      ]),
    ).toBeCloseTo(113.75, 9);
    expect(mixedStrengthGL([])).toBeNull();
  });
});
