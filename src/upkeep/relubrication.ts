import { viewOf } from '../app/index.js';
import { relubricationHours } from './core/relubrication.js';
import { type RelubricationQuery, RelubricationView } from './relubrication.dto.js';

export function relubrication({ kind, speedPerMin, boreMm, temperatureC = 55 }: RelubricationQuery): RelubricationView {
  const found = relubricationHours({ kind, speedPerMin, boreMm, temperatureC });
  if (found.kind === 'no-interval') return viewOf(RelubricationView, { hours: null, note: found.why });
  const note = 'For clean, level bearings at an even load; dirt, shaking and upright shafts shorten it. The maker’s plate wins.';
  return viewOf(RelubricationView, { hours: Math.round(found.hours), note });
}
