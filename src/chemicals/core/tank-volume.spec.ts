import { describe, expect, test } from '@jest/globals';
import fc from 'fast-check';
import { levelAtVolumeM, type TankForm, usableAtLevelL, volumeAtLevelL } from './tank-volume.js';

const INCH_M = 0.0254;
const US_GALLON_L = 3.785411784;

const form = (given: Partial<TankForm>): TankForm => ({
  shape: 'drum',
  diameterM: null,
  lengthM: null,
  widthM: null,
  heightM: 1,
  capacityL: 1000,
  heelL: 0,
  ...given,
});
const upright = form({ shape: 'vertical-cylinder', diameterM: 1, heightM: 1.4, capacityL: 1100 });
const lying = form({ shape: 'horizontal-cylinder', diameterM: 24 * INCH_M, lengthM: 48 * INCH_M, heightM: 24 * INCH_M, capacityL: 400 });
const box = form({ shape: 'rectangular', lengthM: 1.2, widthM: 0.8, heightM: 1, capacityL: 960 });
const ibc = form({ shape: 'drum', heightM: 1, capacityL: 1000 });

describe('the volume in a tank', () => {
  test('of an upright cylinder of 1 m is 7.854 L for a centimetre', () => {
    expect(volumeAtLevelL(upright, 0.51) - volumeAtLevelL(upright, 0.5)).toBeCloseTo(7.854, 3);
  });

  test('of a lying cylinder, 24 by 48 inches, 6 inches deep is 18.4 US gal and not a quarter of the whole', () => {
    // Published in a trade article on dipping tanks; 18.378 computed apart.
    expect(volumeAtLevelL(lying, 6 * INCH_M) / US_GALLON_L).toBeCloseTo(18.378, 3);
    expect(volumeAtLevelL(lying, 12 * INCH_M) * 2).toBeCloseTo(volumeAtLevelL(lying, 24 * INCH_M), 9);
  });

  test('of a box is length times width times level, of a drum or IBC a straight scale', () => {
    expect(volumeAtLevelL(box, 0.25)).toBeCloseTo(240, 9);
    expect(volumeAtLevelL(ibc, 0.25)).toBeCloseTo(250, 9);
  });

  test('of a tank with a domed bottom is read from its table', () => {
    const domed = form({
      shape: 'table',
      heightM: 1.2,
      levelTable: [
        { levelM: 0.2, volumeL: 60 },
        { levelM: 0.7, volumeL: 460 },
        { levelM: 1.2, volumeL: 900 },
      ],
    });
    expect([0, 0.1, 0.2, 0.45, 1.2].map((level) => volumeAtLevelL(domed, level))).toEqual([0, 30, 60, expect.closeTo(260, 9), 900]);
    expect(levelAtVolumeM(domed, 260)).toBeCloseTo(0.45, 4);
    expect(volumeAtLevelL(form({ shape: 'table', heightM: 1 }), 0.5)).toBe(500);
  });

  test('is read from capacity and height where a dimension is missing', () => {
    expect(volumeAtLevelL(form({ shape: 'horizontal-cylinder', diameterM: 1, heightM: 1, capacityL: 800 }), 0.5)).toBeCloseTo(400, 9);
  });

  test('stays between empty and full, and above the heel where it is to be used', () => {
    expect(volumeAtLevelL(upright, -0.1)).toBe(0);
    expect(volumeAtLevelL(upright, 9)).toBeCloseTo(1099.557, 3);
    expect(volumeAtLevelL(box, 9)).toBe(960);
    expect(usableAtLevelL(form({ heelL: 60 }), 0.5)).toBe(440);
    expect(usableAtLevelL(form({ heelL: 60 }), 0.05)).toBe(0);
  });

  test('rises with the level, and the level is found again from the volume', () => {
    const share = fc.double({ min: 0.01, max: 0.99, noNaN: true });
    fc.assert(
      fc.property(fc.constantFrom(upright, lying, box, ibc), share, (tank, at) => {
        const level = at * tank.heightM;
        expect(volumeAtLevelL(tank, level)).toBeGreaterThan(volumeAtLevelL(tank, level * 0.99));
        expect(levelAtVolumeM(tank, volumeAtLevelL(tank, level))).toBeCloseTo(level, 4);
      }),
      { numRuns: 60 },
    );
  });
});
