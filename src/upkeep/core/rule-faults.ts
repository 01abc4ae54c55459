import { CONDITION_FIGURES, type ConditionFigure, type OutlookLimit, type RulePlace, type WhileLaidUp } from '../../shared/upkeep-terms.js';
import { type Containing, containsFault } from './contained-tasks.js';

/** A rule as somebody entered it. */
export interface EnteredRule {
  readonly task: string;
  readonly positionKind: RulePlace;
  readonly runHours?: number | null;
  readonly starts?: number | null;
  readonly cycles?: number | null;
  readonly days?: number | null;
  readonly outlookLimit?: OutlookLimit | null;
  readonly conditionFigure?: ConditionFigure | null;
  readonly conditionAbove?: number | null;
  readonly conditionBelow?: number | null;
  readonly whileLaidUp: WhileLaidUp;
  readonly contains: readonly string[];
}

export interface RuleFault {
  readonly field: string;
  readonly message: string;
}

/** Kinds of position that an outlook speaks of. */
const OUTLOOK_PLACES: Record<OutlookLimit, readonly RulePlace[]> = { permeability: ['skid', 'module'], 'cartridge dP': ['pre-filter'] };
/** A share is a part of 1; more than one and a half of a baseline is a percentage by mistake. */
const MOST_SHARE = 1.5;

/**
 * What is wrong with a rule in itself and beside the other rules of its kind of position, each with its field and how to mend it. Nothing: an empty list.
 *
 * @example ruleFaults({ task: 'Grease', positionKind: 'seal', whileLaidUp: 'stands still', contains: [] }, []).map(({ field }) => field) // => ["days"]
 */
export function ruleFaults(rule: EnteredRule, others: readonly Containing[]): RuleFault[] {
  const { runHours, starts, cycles, days, outlookLimit, conditionFigure, positionKind, whileLaidUp } = rule;
  const faults: RuleFault[] = [];
  const fault = (field: string, message: string) => faults.push({ field, message });
  if ([runHours, starts, cycles, days, outlookLimit, conditionFigure].every((limit) => limit == null))
    fault('days', 'a rule without a limit never falls due: give at least one of runHours, starts, cycles, days, outlookLimit and conditionFigure');
  if (positionKind === 'skid') {
    const counted = Object.entries({ runHours, starts, cycles }).find(([, limit]) => limit != null)?.[0];
    if (counted !== undefined) fault(counted, 'the skid as a whole has no counter: give days, or attach the rule to a kind of position');
  }
  if (outlookLimit != null && !OUTLOOK_PLACES[outlookLimit].includes(positionKind))
    fault('outlookLimit', `the outlook of ${outlookLimit} speaks of the ${OUTLOOK_PLACES[outlookLimit].join(' or the ')}, not of the ${positionKind}`);
  if (whileLaidUp === 'only then' && days == null) fault('days', 'a rule that holds only while the skid is laid up needs days: nothing else goes on then');
  conditionFaults(rule, fault);
  const nested = containsFault(rule.task, [...others.filter(({ task }) => task !== rule.task), rule]);
  if (nested !== null) {
    const path = nested.path.join(' > ');
    fault(
      'contains',
      nested.kind === 'ring' ? `would contain itself: ${path}. Take one of them out` : `goes deeper than two levels: ${path}. Name the smallest directly`,
    );
  }
  return faults;
}

function conditionFaults(
  { conditionFigure: figure, conditionAbove: above, conditionBelow: below }: EnteredRule,
  fault: (field: string, message: string) => void,
) {
  if (figure == null) {
    if (above != null) fault('conditionAbove', `${above} is a limit of what? Name the figure in conditionFigure, or leave it out`);
    if (below != null) fault('conditionBelow', `${below} is a limit of what? Name the figure in conditionFigure, or leave it out`);
    return;
  }
  if (above == null && below == null) fault('conditionAbove', `say above or below which value ${figure} makes the task due`);
  if (above != null && below != null && below >= above) fault('conditionBelow', `${below} must be less than ${above}, or every value would make the task due`);
  if (CONDITION_FIGURES[figure].unit !== 'share') return;
  if (above != null && above > MOST_SHARE) fault('conditionAbove', `a share is a part of 1: give ${above / 100} for ${above} %`);
  if (below != null && below > MOST_SHARE) fault('conditionBelow', `a share is a part of 1: give ${below / 100} for ${below} %`);
}
