import type { Scenario } from '../types.js';
import type { ScenarioBreakdown } from '../work-types.js';
import { DAY_MS, HOUR_MS, MINUTE_MS } from './period.js';

/** Two of the past year: a seal that leaked, mended in the visit that renewed it, and a stop that was helped by telephone. */
export function pastBreakdowns({ until, skids, serviceEntries }: Pick<Scenario, 'until' | 'skids' | 'serviceEntries'>): ScenarioBreakdown[] {
  return [
    ...serviceEntries
      .filter(({ skidKey, task }) => skidKey === 'hint-1' && task === 'Renew the mechanical seal')
      .slice(-1)
      .map((entry) => leakingSeal(entry.at, entry.minutes)),
    ...(skids.some(({ key }) => key === 'sill-1') ? [afterPowerCut(until)] : []),
  ];
}

/** The record of cycles has the skid stopped for the repair itself. */
function leakingSeal(at: Date, repairMinutes: number): ScenarioBreakdown {
  const after = (minutes: number) => new Date(at.getTime() + minutes * MINUTE_MS);
  return {
    skidKey: 'hint-1',
    positionKey: 'hint-1 Feed pump: seal',
    title: 'Feed pump leaks at the shaft',
    request: 'Water runs from the shaft of the feed pump onto the floor. The flow is down.',
    severity: 'less water',
    source: 'technician',
    reportedBy: 'jonah.pikkala',
    takenBy: 'jonah.pikkala',
    noticedAt: after(-95),
    downFrom: after(0),
    restoredAt: after(180),
    repairMinutes,
    endedBy: 'visit',
    telephone: '',
    failureMode: 'external leakage',
    mechanism: '2.4',
    cause: 'Faces of the seal worn: sand from the river after high water',
    remedy: 'Mechanical seal renewed, shaft sleeve polished',
  };
}

function afterPowerCut(until: Date): ScenarioBreakdown {
  const day = Math.floor((until.getTime() - 97 * DAY_MS) / DAY_MS) * DAY_MS;
  const at = (hours: number) => new Date(day + hours * HOUR_MS);
  return {
    skidKey: 'sill-1',
    positionKey: 'sill-1 Feed pump: motor',
    title: 'Skid does not start after a power cut',
    request: 'Power was off for a minute. The skid stands and the feed pump shows a fault.',
    severity: 'no water',
    source: 'staff',
    reportedBy: 'ines.halvorsen',
    takenBy: 'marit.dunnoway',
    noticedAt: at(9.25),
    downFrom: at(9),
    restoredAt: at(10.5),
    repairMinutes: null,
    endedBy: 'telephone',
    telephone: 'The soft starter had tripped on low voltage. Reset at its front by the shift leader, current read back: normal.',
    failureMode: 'fail to start',
    mechanism: '4.3',
    cause: 'Short power cut in a thunderstorm',
    remedy: 'Soft starter reset by the shift leader',
  };
}
