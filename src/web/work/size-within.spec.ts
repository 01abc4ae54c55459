import { expect, it } from '@jest/globals';
import { sizeWithin } from './size-within.js';

it('a picture keeps its shape, loses what is too much, and is never blown up', () => {
  expect(sizeWithin({ width: 4000, height: 3000 }, 1600)).toEqual({ width: 1600, height: 1200 });
  expect(sizeWithin({ width: 100, height: 8000 }, 1600)).toEqual({ width: 20, height: 1600 });
  expect(sizeWithin({ width: 640, height: 480 }, 1600)).toEqual({ width: 640, height: 480 });
});
