import { OUTLOOK_LIMITS } from '../shared/upkeep-terms.js';
import type { DatedLimit, LimitDue } from './core/due-date.js';
import { figureLimitInWords } from './core/limit-of-condition.js';
import type { UpkeepRuleRow } from './upkeep.repository.js';

interface Basis {
  readonly name: string;
  readonly value: string;
}

const AMOUNT = new Intl.NumberFormat('en-GB', { maximumFractionDigits: 1 });

type Limits = Pick<
  UpkeepRuleRow,
  'runHours' | 'starts' | 'cycles' | 'days' | 'base' | 'outlookLimit' | 'conditionFigure' | 'conditionAbove' | 'conditionBelow' | 'whileLaidUp'
>;

/** The limits of a rule, how they count, and what they do while the skid is laid up. */
export function ruleInWords(rule: Limits): string {
  const { runHours, starts, cycles, days, base, outlookLimit, conditionFigure, conditionAbove, conditionBelow, whileLaidUp } = rule;
  const limits = [
    runHours === null ? [] : `${AMOUNT.format(runHours)} run hours`,
    starts === null ? [] : `${AMOUNT.format(starts)} starts`,
    cycles === null ? [] : `${AMOUNT.format(cycles)} cycles`,
    days === null ? [] : `${days} days`,
    outlookLimit === null ? [] : `the outlook of the ${OUTLOOK_LIMITS[outlookLimit]}`,
    conditionFigure === null ? [] : `${conditionFigure} ${figureLimitInWords(conditionFigure, { above: conditionAbove, below: conditionBelow })}`,
  ].flat();
  const laidUp = { 'stands still': '', 'runs on': '; runs on while laid up', 'only then': '; only while laid up' }[whileLaidUp];
  const first = limits.length > 1 ? ', whichever first' : '';
  return `${limits.join(' or ')}${first}; counted from the ${base === 'fixed' ? 'planned day' : 'day it was done'}${laidUp}`;
}

export function limitInWords({ limit, unit, now, lastAt, dailyUse, left, dueOn }: LimitDue): Basis[] {
  if (limit === 'calendar') return [{ name: 'By the calendar', value: dueOn ?? 'no day' }];
  if (now === null || lastAt === null || left === null) return [{ name: `By ${limit}`, value: 'no counter is read' }];
  const use = dailyUse === null ? 'daily use not known' : `${dailyUse.toFixed(1)} ${unit} a day`;
  const shows = `counter at ${Math.round(now)} ${unit}, ${Math.round(now - lastAt)} ${unit} since then`;
  return [{ name: `By ${limit}`, value: `${shows}, ${Math.round(left)} left, ${use}: ${dueOn ?? 'no day'}` }];
}

export function datedInWords({ from, dueOn, inWords }: DatedLimit): Basis {
  const text = `${inWords.charAt(0).toUpperCase()}${inWords.slice(1)}`;
  return { name: from === 'outlook' ? 'By the outlook' : 'By the condition', value: dueOn === null ? text : `${text}: ${dueOn}` };
}
