import { describe, expect, test } from '@jest/globals';
import { reminderOf, type TankToRefill } from './reminder.js';

const reminder = (given: Partial<TankToRefill> = {}) =>
  reminderOf({
    chemical: 'citric acid',
    capacityL: 500,
    heelL: 20,
    volumeL: 100,
    dailyUseL: 8,
    shortOn: '2025-12-05',
    today: '2025-11-25',
    keepsDays: null,
    awaited: null,
    ...given,
  });

describe('the reminder of a client who fills a tank', () => {
  test('says what, how much and by what day', () => {
    expect(reminder()).toEqual({
      litres: 435,
      byDay: '2025-12-05',
      words: 'Please have about 435 L of citric acid in the tank by 5 Dec: from then on it may run short.',
    });
  });

  test('is silent while there is time', () => {
    expect(reminder({ shortOn: '2025-12-10' })).toBeNull();
    expect(reminder({ shortOn: '2025-12-09' })).not.toBeNull();
  });

  test('is silent when enough comes in time, and says why it is not enough', () => {
    expect(reminder({ awaited: { volumeL: 300, expectedOn: '2025-12-04' } })).toBeNull();
    expect(reminder({ awaited: { volumeL: 300, expectedOn: '2025-12-08' } })?.words).toMatch(/What is on its way \(300 L\) comes on 8 Dec, after that day\.$/);
    expect(reminder({ awaited: { volumeL: 20, expectedOn: '2025-12-04' } })?.words).toMatch(/will not last long\.$/);
  });

  test('asks for no more than is used while it keeps', () => {
    expect(reminder({ keepsDays: 21 })?.litres).toBe(165);
  });

  test('of a day that is past asks for today', () => {
    expect(reminder({ shortOn: '2025-11-20', volumeL: 0 })).toMatchObject({ byDay: '2025-11-25', litres: 455 });
  });
});
