import { describe, expect, test } from '@jest/globals';
import fc from 'fast-check';
import { nearestLimits } from './nearest-limits.js';
import { boxesOf, clockOf, hoursOf, minutesOf, piecesOf, type Stop, scaleOf, staysOf, type Tour, xOf } from './tour-geometry.js';

const stop = (siteId: string, arriveAt: string, startAt: string, endAt: string, kind: Stop['kind'] = 'due'): Stop => ({
  id: `${siteId} ${startAt}`,
  kind,
  text: 'Change the oil',
  siteId,
  siteName: siteId,
  arriveAt,
  startAt,
  endAt,
});
const TOUR = {
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
  stops: [stop('oak', '08:00', '08:30', '09:15'), stop('oak', '09:15', '09:15', '10:00'), stop('elm', '10:40', '11:00', '13:00')],
} satisfies Tour;

describe('a tour', () => {
  test('is ways and work to scale, with waiting left blank', () => {
    expect(piecesOf(TOUR).map(({ kind, from, until }) => `${kind} ${clockOf(from)}-${clockOf(until)}`)).toEqual([
      'way 07:30-08:00',
      'work 08:30-09:15',
      'work 09:15-10:00',
      'way 10:00-10:40',
      'work 11:00-13:00',
      'way 13:00-14:00',
    ]);
  });

  test('has the break between its ways and work, and in the midst of them', () => {
    const pieces = piecesOf({ ...TOUR, breakAt: { from: '12:00', until: '12:30' } }).map(
      ({ kind, from, until }) => `${kind} ${clockOf(from)}-${clockOf(until)}`,
    );
    expect(pieces.slice(-4)).toEqual(['work 11:00-12:00', 'work 12:30-13:00', 'way 13:00-14:00', 'break 12:00-12:30']);
  });

  test('has one stay for all that is done at a site in one go', () => {
    expect(staysOf(TOUR).map(({ siteId, stops, start, end }) => [siteId, stops.length, clockOf(start), clockOf(end)])).toEqual([
      ['oak', 2, '08:30', '10:00'],
      ['elm', 1, '11:00', '13:00'],
    ]);
  });

  test('has a stay for each group where stops are grouped otherwise', () => {
    expect(staysOf(TOUR, ({ id }) => id).map(({ start, end }) => `${clockOf(start)}-${clockOf(end)}`)).toEqual(['08:30-09:15', '09:15-10:00', '11:00-13:00']);
  });

  test('may go on after midnight', () => {
    expect(clockOf(minutesOf('24:30'))).toBe('24:30');
  });
});

describe('the time along a day', () => {
  test('begins and ends with whole hours around all tours, with the first at the left and the last at the right', () => {
    const scale = scaleOf([TOUR], 10, 810);
    expect([clockOf(scale.from), clockOf(scale.until)]).toEqual(['07:00', '15:00']);
    expect([xOf(scale, scale.from), xOf(scale, scale.until), xOf(scale, minutesOf('08:00'))]).toEqual([10, 810, 110]);
    expect(hoursOf(scale).map(({ minutes }) => clockOf(minutes))).toEqual(['07:00', '08:00', '09:00', '10:00', '11:00', '12:00', '13:00', '14:00', '15:00']);
  });

  test('is written more sparsely where there is less room', () => {
    expect(hoursOf(scaleOf([TOUR], 0, 150)).map(({ minutes }) => clockOf(minutes))).toEqual(['07:00', '10:00', '13:00']);
  });

  test('is the whole day where there is no tour', () => {
    expect(scaleOf([], 0, 100)).toMatchObject({ from: 0, until: 1440 });
  });
});

describe('the buttons of a tour', () => {
  test('can be hit, and none covers another, however short the stays are', () => {
    const lengths = fc.array(fc.record({ way: fc.integer({ min: 0, max: 90 }), work: fc.integer({ min: 1, max: 240 }) }), { minLength: 1, maxLength: 8 });
    fc.assert(
      fc.property(lengths, fc.integer({ min: 250, max: 1200 }), (stays, right) => {
        let at = 420;
        const list = stays.map(({ way, work }, no) => {
          const start = at + way;
          at = start + work;
          return { group: String(no), siteId: String(no), siteName: '', stops: [], arrive: start, start, end: at };
        });
        const boxes = boxesOf(list, { from: 360, until: Math.max(at, 1080), left: 0, right });
        return boxes.every(({ x, width }, no) => {
          const before = boxes[no - 1];
          return width >= 24 && (before === undefined || before.x + before.width <= x + 1e-6);
        });
      }),
      { numRuns: 60 },
    );
  });
});

describe('the nearest limit of a stay', () => {
  const facts = { shiftUntil: minutesOf('17:00'), back: minutesOf('14:00'), letInUntil: () => null, isPromised: () => false };
  const limits = (more: object) => nearestLimits(staysOf(TOUR), { ...facts, ...more }).map((limit) => limit && `${clockOf(limit.at)} ${limit.by}`);

  test('is the end of the shift less the way home and all that comes after it', () => {
    // Elm may end three hours later; Oak by that and the 20 minutes that are waited at Elm.
    expect(limits({})).toEqual(['13:20 shift', '16:00 shift']);
  });

  test('is the hour until which people are let in, where that comes first', () => {
    expect(limits({ letInUntil: ({ siteId }: { siteId: string }) => (siteId === 'elm' ? minutesOf('14:30') : null) })).toEqual(['11:50 site', '14:30 site']);
  });

  test('is what was promised further on', () => {
    expect(limits({ isPromised: ({ siteId }: { siteId: string }) => siteId === 'elm' })).toEqual(['10:20 promise', '16:00 shift']);
  });

  test('is none where nothing is known', () => {
    expect(limits({ shiftUntil: null })).toEqual([null, null]);
  });
});
