import { describe, expect, test } from '@jest/globals';
import { fieldAtPointer, rowsOf, withRows } from './row-entries.js';

const FORM = { mostNights: '2', 'skills/0/skill': 'Pumps', 'skills/0/lastOn': '', 'skills/1/skill': 'Heights', 'skills/1/lastOn': '2026-12-31' };

describe('a list in a flat form', () => {
  test('is read row by row, and written back as it was', () => {
    const rows = rowsOf(FORM, 'skills', ['skill', 'lastOn']);
    expect(rows).toEqual([
      { skill: 'Pumps', lastOn: '' },
      { skill: 'Heights', lastOn: '2026-12-31' },
    ]);
    expect(withRows(FORM, 'skills', rows)).toEqual(FORM);
  });

  test('closes up when a row is left out, and leaves the other fields alone', () => {
    const rows = rowsOf(FORM, 'skills', ['skill', 'lastOn']);
    expect(withRows(FORM, 'skills', rows.slice(1))).toEqual({ mostNights: '2', 'skills/0/skill': 'Heights', 'skills/0/lastOn': '2026-12-31' });
    expect(withRows(FORM, 'skills', [])).toEqual({ mostNights: '2' });
  });

  test('is empty where the form holds none', () => {
    expect(rowsOf(FORM, 'daysOff', ['from', 'until'])).toEqual([]);
  });
});

describe('what the service points to', () => {
  test('is the field itself, or the field that holds several', () => {
    expect(fieldAtPointer('#/skills/1/skill')).toBe('skills/1/skill');
    expect(fieldAtPointer('#/windows/0/days/1')).toBe('windows/0/days');
    expect(fieldAtPointer('#/workDays/0')).toBe('workDays');
    expect(fieldAtPointer('#/latitude')).toBe('latitude');
  });
});
