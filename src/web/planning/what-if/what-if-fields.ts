import type { Schemas } from '../../api/client.js';
import { addDays } from '../../site-time.js';
import { planWords } from '../../words/plan.js';
import { whatIfWords as said } from '../../words/what-if.js';

export const WHAT_IFS = ['more', 'work', 'all'] as const;

export const NOTHING_ASKED = { kind: 'more' as string, likeId: '', skillsLikeId: '', workId: '', from: '', laterDays: '7', seconds: '3' };
export type WhatIfEntries = Readonly<typeof NOTHING_ASKED>;
type Skilled = Pick<Schemas['PersonPlanningView'], 'personId' | 'skills'>;
type Plan = Pick<Schemas['PlanView'], 'firstDay' | 'days' | 'lines' | 'notInPlan'>;

export interface WorkToDefer {
  readonly id: string;
  readonly text: string;
  /** After its day in the plan; after the first day where it has none */
  readonly weekLater: string;
}

/** What could come later: work that waits by itself and visits as a whole; what was promised stays. */
export function workToDefer({ firstDay, lines, notInPlan }: Plan): WorkToDefer[] {
  const placed = lines.flatMap(({ visitId, visitNo, siteName, day, promised, work }): WorkToDefer[] => {
    const weekLater = addDays(day, 7);
    if (promised) return [];
    if (visitId !== null) return [{ id: visitId, text: said.visit(visitNo ?? 0, siteName), weekLater }];
    return work.map(({ id, text }) => ({ id, text: `${text}, ${siteName}`, weekLater }));
  });
  const left = notInPlan.filter(({ promised }) => !promised);
  return [...placed, ...left.map(({ id, text, siteName }) => ({ id, text: `${text}, ${siteName}`, weekLater: addDays(firstDay, 7) }))];
}

/** What needs a change before it is sent. */
export function checkWhatIf({ kind, likeId, workId, from, laterDays, seconds }: WhatIfEntries): Partial<Record<keyof WhatIfEntries, string>> {
  return {
    ...(kind === 'more' && likeId === '' ? { likeId: said.needLike } : {}),
    ...(kind === 'work' && workId === '' ? { workId: said.needWork } : {}),
    ...(kind === 'work' && from === '' ? { from: said.needFrom } : {}),
    ...(kind === 'all' && !/^(1?\d|2[0-8])$/.test(laterDays.trim()) ? { laterDays: said.badDays } : {}),
    ...(kind === 'all' && laterDays.trim() === '0' ? { laterDays: said.badDays } : {}),
    ...(/^(1?\d|20)$/.test(seconds.trim()) ? {} : { seconds: planWords.badSeconds }),
  };
}

/** The field that a pointer of the service means. */
export function whatIfField(pointer: string): keyof WhatIfEntries | '' {
  if (pointer.startsWith('#/oneMore')) return 'likeId';
  if (/^#\/notBefore\/\d+\/id$/.test(pointer)) return 'workId';
  if (pointer.startsWith('#/notBefore')) return 'from';
  return pointer === '#/laterDays' ? 'laterDays' : pointer === '#/seconds' ? 'seconds' : '';
}

/** As it is sent, once it was checked: of the days of the plan, from today on where it has begun. */
export function whatIfBody(
  entries: WhatIfEntries,
  { firstDay, days }: Plan,
  { people, today }: { people: readonly Skilled[]; today: string },
): Schemas['WhatIfDto'] {
  const { kind, likeId, workId, from, laterDays, seconds } = entries;
  const first = firstDay < today ? today : firstDay;
  const gone = Math.round((Date.parse(first) - Date.parse(firstDay)) / 86_400_000);
  const about = { firstDay: first, days: Math.max(1, days - gone), seconds: Number(seconds) };
  if (kind === 'work') return { ...about, notBefore: [{ id: workId, from }] };
  if (kind === 'all') return { ...about, laterDays: Number(laterDays) };
  return { ...about, oneMore: { likePersonId: likeId, skills: skillsOf(entries, people, first) } };
}

/** Those that hold on the day, of the person whose skills were chosen. */
function skillsOf({ skillsLikeId }: WhatIfEntries, people: readonly Skilled[], day: string): string[] {
  const like = people.find(({ personId }) => personId === skillsLikeId);
  return [...new Set((like?.skills ?? []).flatMap(({ skill, lastOn }) => (lastOn === null || lastOn >= day ? [skill] : [])))];
}
