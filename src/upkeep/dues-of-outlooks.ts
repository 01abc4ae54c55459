import type { OutlookLimit } from '../shared/upkeep-terms.js';
import { limitOfOutlook } from './core/limit-of-outlook.js';
import type { ComingTask } from './core/work-ahead.js';
import type { DueToStore } from './dues.repository.js';
import { usualGapDays } from './dues-of-rules.js';
import type { SheetOfTask } from './upkeep.repository.js';
import type { SkidFacts } from './upkeep-facts.js';

/** What is to be done when a limit is met; where no sheet says how long it takes, these minutes of common practice do. */
const TASKS: Record<OutlookLimit, { readonly task: string; readonly kind: string; readonly minutes: number }> = {
  permeability: { task: 'Recovery clean (CIP)', kind: 'clean', minutes: 360 },
  'cartridge dP': { task: 'Change the cartridges', kind: 'part change', minutes: 60 },
};
export const OUTLOOK_TASKS = Object.values(TASKS).map(({ task }) => task);

/** What outlooks ask for that no rule of the skid looks at. */
export function duesOfOutlooks(facts: SkidFacts, covered: ReadonlySet<string>, sheets: readonly SheetOfTask[]): { store: DueToStore; coming: ComingTask }[] {
  return facts.outlooks.flatMap((outlook) => {
    if (covered.has(outlook.id)) return [];
    const { limit, dueOn, earliestOn, latestOn } = limitOfOutlook(outlook, facts.skid.today);
    if (dueOn === null) return [];
    const { task, kind, minutes } = TASKS[outlook.limitKind];
    const sheet = sheets.find((one) => one.task === task);
    const usualMinutes = sheet?.usualMinutes ?? minutes;
    const days = { earliestOn: earliestOn ?? dueOn, latestOn: latestOn ?? dueOn };
    return [
      {
        store: {
          ...days,
          positionId: outlook.subject === 'membranes' ? null : outlook.subject,
          ruleId: null,
          outlookId: outlook.id,
          task,
          taskSheetId: sheet?.id ?? null,
          limit,
          bestOn: dueOn,
          reason: outlook.reason,
          computedFrom: outlook.dataUsed.map((value) => ({ name: 'Outlook', value })),
          expectedMinutes: usualMinutes,
        },
        coming: {
          ...days,
          task,
          kind: sheet?.kind ?? kind,
          contains: [],
          dueOn,
          everyDays: usualGapDays(outlook.subject, facts),
          personMinutes: usualMinutes * (sheet?.crew ?? 1),
        },
      },
    ];
  });
}
