/** What of a rule can differ between two versions of its set. */
export interface ComparedRule {
  readonly positionKind: string;
  readonly task: string;
  readonly [field: string]: unknown;
}

export interface RuleDifference {
  readonly positionKind: string;
  readonly task: string;
  readonly what: 'added' | 'removed' | 'changed';
  readonly fields: readonly { readonly field: string; readonly from: string; readonly to: string }[];
}

const COMPARED = [
  'runHours',
  'starts',
  'cycles',
  'days',
  'outlookLimit',
  'conditionFigure',
  'conditionAbove',
  'conditionBelow',
  'base',
  'graceDays',
  'whileLaidUp',
  'contains',
  'taskSheetId',
  'note',
] as const;

/**
 * What a version of a rule set changes against the one before: rules added, removed, and changed field by field, told apart by kind of position and task. Sorted by both.
 *
 * @example ruleDifferences([{ positionKind: 'valve', task: 'check', days: 365 }], [{ positionKind: 'valve', task: 'check', days: 180 }]) // => [{ "positionKind": "valve", "task": "check", "what": "changed", "fields": [{ "field": "days", "from": "365", "to": "180" }] }]
 */
export function ruleDifferences(before: readonly ComparedRule[], after: readonly ComparedRule[]): RuleDifference[] {
  const keyOf = ({ positionKind, task }: ComparedRule) => `${positionKind}\n${task}`;
  const old = new Map(before.map((rule) => [keyOf(rule), rule]));
  const kept = new Set(after.map(keyOf));
  const differences = [
    ...before.filter((rule) => !kept.has(keyOf(rule))).map((rule) => differenceOf(rule, 'removed')),
    ...after.flatMap((rule) => {
      const was = old.get(keyOf(rule));
      if (was === undefined) return [differenceOf(rule, 'added')];
      const fields = COMPARED.flatMap((field) => {
        const [from, to] = [inWords(was[field]), inWords(rule[field])];
        return from === to ? [] : [{ field, from, to }];
      });
      return fields.length === 0 ? [] : [{ ...differenceOf(rule, 'changed'), fields }];
    }),
  ];
  return differences.sort((a, b) => a.positionKind.localeCompare(b.positionKind) || a.task.localeCompare(b.task));
}

function differenceOf({ positionKind, task }: ComparedRule, what: RuleDifference['what']): RuleDifference {
  return { positionKind, task, what, fields: [] };
}

function inWords(value: unknown): string {
  if (value === null || value === undefined) return 'none';
  return Array.isArray(value) ? value.join(', ') || 'none' : `${value as string}`;
}
