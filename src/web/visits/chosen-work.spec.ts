import { describe, expect, test } from '@jest/globals';
import { judgeChosen } from './chosen-work.js';

const at = (siteName: string, clientName = 'Birch Beverages') => ({ id: siteName, skidId: siteName, siteName, clientName, bestOn: null });

describe('work that is chosen for a visit', () => {
  test('lies at one site', () => {
    expect(judgeChosen([])).toEqual({ kind: 'none' });
    expect(judgeChosen([at('Birch Lane'), at('Birch Lane')])).toEqual({ kind: 'one site', first: at('Birch Lane') });
  });

  test('is refused where it lies at several, also where two clients call theirs the same', () => {
    expect(judgeChosen([at('Birch Lane'), at('Mill Road')])).toEqual({ kind: 'sites', sites: 2 });
    expect(judgeChosen([at('Works'), at('Works', 'Ash Dairy')])).toEqual({ kind: 'sites', sites: 2 });
  });
});
