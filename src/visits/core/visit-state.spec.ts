import { expect, test } from '@jest/globals';
import type { JobState, VisitState } from '../../shared/work.js';
import { visitState } from './visit-state.js';

test.each<[VisitState, JobState[], VisitState]>([
  ['planned', ['open', 'waiting'], 'planned'],
  ['promised', ['open', 'dropped'], 'promised'],
  ['promised', ['open', 'finished'], 'under way'],
  ['planned', ['finished'], 'finished'],
  ['under way', ['dropped', 'finished'], 'finished'],
  ['under way', [], 'finished'],
  ['finished', ['open', 'finished'], 'under way'],
  ['planned', [], 'planned'],
  ['called off', ['finished'], 'called off'],
])('%s with jobs %j is %s', (present, jobs, expected) => {
  expect(visitState(present, jobs)).toBe(expected);
});
