import { dayPlus } from '../shared/day.js';
import type { DueToStore, LatestOutlook } from './upkeep.repository.js';

/** What is to be done when a limit is met, and how long it takes. Minutes: common practice. */
const TASKS: Record<string, { task: string; limit: string; expectedMinutes: number }> = {
  permeability: { task: 'Recovery clean (CIP)', limit: 'permeability', expectedMinutes: 360 },
  'cartridge dP': { task: 'Change the cartridges', limit: 'cartridge pressure drop', expectedMinutes: 60 },
};
/** Work may begin this many days before the day to do it: earlier, life is thrown away. Common practice. */
const EARLY_DAYS = 14;

/**
 * What outlooks ask for: the work is best done by the day up to which the limit is met in 1 case of 10, and no later than the day by which it is as likely met as
 * not. One that lies beyond two years asks for nothing, and so does one that could not be made.
 */
export function duesOfOutlooks(outlooks: readonly LatestOutlook[]): DueToStore[] {
  return outlooks.flatMap((outlook) => {
    const about = TASKS[outlook.limitKind];
    const days = daysOf(outlook);
    if (about === undefined || days === null) return [];
    const bestOn = dayPlus(outlook.originDay, days.best);
    return [
      {
        ...about,
        positionId: outlook.subject === 'membranes' ? null : outlook.subject,
        ruleId: null,
        taskSheetId: null,
        outlookId: outlook.id,
        earliestOn: dayPlus(bestOn, -EARLY_DAYS),
        bestOn,
        latestOn: dayPlus(outlook.originDay, days.latest),
        reason: outlook.reason,
        computedFrom: outlook.dataUsed.map((value) => ({ name: 'Outlook', value })),
      },
    ];
  });
}

function daysOf({ kind, p10Days, p50Days }: LatestOutlook): { best: number; latest: number } | null {
  if (kind === 'limit-met') return { best: 0, latest: 0 };
  if (kind !== 'outlook' || p10Days === null) return null;
  const best = Math.floor(p10Days);
  return { best, latest: p50Days === null ? best : Math.floor(p50Days) };
}
