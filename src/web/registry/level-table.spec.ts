import { describe, expect, test } from '@jest/globals';
import { levelLines, levelRows } from './level-table.js';

describe('a level table', () => {
  test('is read line by line, with a comma or a point, and written back', () => {
    const read = levelRows('0 0\n\n0,5; 120\n 1.1 301.5 \n');
    expect(read).toEqual({
      rows: [
        { levelM: 0, volumeL: 0 },
        { levelM: 0.5, volumeL: 120 },
        { levelM: 1.1, volumeL: 301.5 },
      ],
    });
    expect('rows' in read && levelLines(read.rows)).toBe('0 0\n0.5 120\n1.1 301.5');
    expect(levelLines(null)).toBe('');
  });

  test('says which line is not a level and a volume', () => {
    expect(levelRows('0 0\n0.5\n1 2')).toEqual({ unreadLine: 2 });
    expect(levelRows('0 0 7')).toEqual({ unreadLine: 1 });
    expect(levelRows('low 4')).toEqual({ unreadLine: 1 });
  });
});
