import { describe, expect, test } from '@jest/globals';
import type { ShownPlan } from '../shown-plan.js';
import { layOut, placesOf, wayOf } from './route-geometry.js';
import type { Tour } from './tour-geometry.js';

const tour = (about: Partial<Tour>): Tour => ({
  personId: 'ada',
  personName: 'Ada',
  day: '2026-11-30',
  startsNear: null,
  endsNear: null,
  leaveAt: '07:30',
  backAt: '14:00',
  breakAt: null,
  breakLeftOut: false,
  onCall: false,
  stops: ['oak', 'oak', 'elm'].map((siteId, at) => ({
    id: `${at}`,
    kind: 'due',
    text: 'Change the oil',
    siteId,
    siteName: siteId,
    arriveAt: '08:00',
    startAt: '08:00',
    endAt: '08:30',
  })),
  ...about,
});
const at = (latitude: number | null, longitude: number | null) => ({ latitude, longitude });
const PLAN = {
  people: [
    { personId: 'ada', name: 'Ada', ...at(50, 8) },
    { personId: 'tom', name: 'Tom', ...at(40, 8) },
  ],
  sites: [
    { siteId: 'oak', name: 'oak', ...at(51, 8) },
    { siteId: 'elm', name: 'elm', ...at(50, 10) },
    { siteId: 'ash', name: 'ash', ...at(10, 10) },
  ],
  tours: [tour({})],
} as unknown as ShownPlan;

describe('where tours go', () => {
  test('are the homes of those who go and the sites that they go to', () => {
    expect(placesOf(PLAN).map(({ name }) => name)).toEqual(['Ada', 'oak', 'elm']);
  });

  test('is from home to each site and back, or to where the night is spent', () => {
    const places = placesOf(PLAN);
    expect(wayOf(tour({}), places)).toEqual(['home ada', 'oak', 'elm', 'home ada']);
    expect(wayOf(tour({ endsNear: 'elm' }), places)).toEqual(['home ada', 'oak', 'elm']);
    expect(wayOf(tour({ startsNear: 'elm' }), places)).toEqual(['elm', 'oak', 'elm', 'home ada']);
  });

  test('leaves out a place of which nobody knows where it is', () => {
    const places = placesOf({ ...PLAN, sites: PLAN.sites.map((site) => (site.siteId === 'oak' ? { ...site, ...at(null, null) } : site)) });
    expect(wayOf(tour({}), places)).toEqual(['home ada', 'elm', 'home ada']);
  });
});

describe('the drawing', () => {
  test('has north above and west at the left, and keeps the shape of the land', () => {
    const { points } = layOut(placesOf(PLAN), 400, 300);
    const [ada, oak, elm] = ['Ada', 'oak', 'elm'].map((name) => points.find((point) => point.name === name));
    expect(oak && ada && oak.y < ada.y && Math.abs(oak.x - ada.x) < 1e-6).toBe(true);
    // Two degrees of longitude at 50.5 degrees north are 1.27 times a degree of latitude: 2 cos 50.5.
    expect(((elm?.x ?? 0) - (ada?.x ?? 0)) / ((ada?.y ?? 0) - (oak?.y ?? 0))).toBeCloseTo(2 * Math.cos((50.5 * Math.PI) / 180), 6);
  });

  test('lies within its width and height, one place alone in the middle', () => {
    const { points, height } = layOut(placesOf(PLAN), 400, 300);
    for (const { x, y } of points) expect(x >= 0 && x <= 400 && y >= 0 && y <= height).toBe(true);
    expect(layOut(placesOf(PLAN).slice(0, 1), 400, 300).points[0]).toMatchObject({ x: 200, y: 20 });
    expect(layOut([], 400, 300).points).toEqual([]);
  });

  test('writes names that would lie on one another one below the other', () => {
    const places = [1, 2, 3].map((no) => ({ key: String(no), name: 'A long name of a site', kind: 'site' as const, latitude: 50 + no / 1000, longitude: 8 }));
    const far = { key: 'far', name: 'Far', kind: 'site' as const, latitude: 52, longitude: 8.1 };
    const ys = layOut([...places, far], 400, 300)
      .points.filter(({ key }) => key !== 'far')
      .map(({ labelY }) => labelY);
    const sorted = ys.toSorted((one, two) => one - two);
    expect(sorted.slice(1).every((y, no) => y - (sorted[no] ?? 0) >= 15 - 1e-6)).toBe(true);
  });
});
