import { describe, expect, test } from '@jest/globals';
import { isWholeMinutes, movesPromise, shiftChange } from './shift-change.js';

const visit = { onDay: '2026-11-26', startTime: '08:00', minutes: 90, people: [{ personId: 'jo', name: 'Jo Fell' }], state: 'planned' as const };
const same = { onDay: '2026-11-26', startTime: '08:00', minutes: '90', tellClient: '' };

describe('what is sent when a visit is shifted', () => {
  test('is nothing where nothing differs', () => {
    expect(shiftChange(visit, same, ['jo'])).toEqual({});
  });

  test('is what differs, and only that', () => {
    expect(shiftChange(visit, { ...same, onDay: '2026-11-27' }, ['jo'])).toEqual({ onDay: '2026-11-27' });
    expect(shiftChange(visit, same, ['jo', 'kim'])).toEqual({ personIds: ['jo', 'kim'] });
    expect(shiftChange(visit, { ...same, minutes: '120' }, ['jo'])).toEqual({ minutes: 120 });
  });

  test('has the minutes reckoned again where they were emptied', () => {
    expect(shiftChange(visit, { ...same, minutes: ' ' }, ['jo'])).toEqual({ minutes: null });
  });

  test('has the reason for the client only where a promise is moved', () => {
    const said = { ...same, tellClient: 'The pump comes later' };
    const promised = { ...visit, state: 'promised' as const };
    expect(shiftChange(promised, { ...said, startTime: '10:00' }, ['jo'])).toEqual({ startTime: '10:00', tellClient: 'The pump comes later' });
    expect(shiftChange(promised, { ...said, minutes: '60' }, ['jo'])).toEqual({ minutes: 60 });
    expect(movesPromise(promised, same)).toBe(false);
    expect(movesPromise(visit, { ...same, onDay: '2026-11-27' })).toBe(false);
  });
});

test('minutes are whole ones', () => {
  expect(['', '1', '90', '1440'].every(isWholeMinutes)).toBe(true);
  expect(['0', '-5', '1.5', '2 h', '123456'].some(isWholeMinutes)).toBe(false);
});
