import { describe, expect, test } from '@jest/globals';
import { placeProblem } from './place-of-person.js';

const none = { clientId: null, siteId: null };

describe('where a person belongs', () => {
  test.each(['manager', 'storekeeper', 'technician'] as const)('a %s belongs to no client and no site', (role) => {
    expect(placeProblem({ role, ...none })).toBeNull();
    expect(placeProblem({ role, ...none, clientId: 'c' })?.field).toBe('clientId');
    expect(placeProblem({ role, ...none, siteId: 's' })?.field).toBe('siteId');
  });

  test('a client’s person has a client, and may have a site', () => {
    expect(placeProblem({ role: 'client', ...none })?.field).toBe('clientId');
    expect(placeProblem({ role: 'client', clientId: 'c', siteId: null })).toBeNull();
    expect(placeProblem({ role: 'client', clientId: 'c', siteId: 's' })).toBeNull();
  });
});
