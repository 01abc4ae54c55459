import { REPLACE_FROM } from '../../../integrity/core/fibre-record.js';
import { figure } from '../../../shared/figure.js';
import type { LimitSaid } from './limit-of-module.js';
import { repairGrowth, repairsWithin } from './repair-growth.js';

export interface ModuleRepairs {
  /** Days that the module has served */
  readonly age: number;
  /** Fibres that were there when new; null: not on record */
  readonly fibres: number | null;
  /** Fibres that were closed in it, with its age then */
  readonly closed: readonly { readonly age: number; readonly fibres: number; readonly areaLostM2: number | null }[];
}

const LEAST_REPAIRS = 2;
const LEAST_AGE = 30;

/**
 * When so many fibres of a module will be closed that it is replaced: from one in a hundred on (common practice). Repairs come as `repairGrowth` says, and each closes as many fibres as those until now did on average.
 *
 * Too little data below two repairs or a month of service, or where nobody has said how many fibres a module has.
 *
 * Source: own composition; the share of fibres as `fibreRecord`.
 *
 * @example repairsOfModule({ age: 900, fibres: 9000, closed: [] }).kind // => "too-little-data"
 */
export function repairsOfModule({ age, fibres, closed }: ModuleRepairs): LimitSaid {
  const count = closed.reduce((sum, one) => sum + one.fibres, 0);
  const seen = seenInWords(closed, count, fibres);
  if (fibres === null || !(fibres > 0))
    return {
      limit: 'repairs',
      kind: 'too-little-data',
      text: `${seen}; how many fibres a module has is not on record: a manager enters it with the integrity setup.`,
    };
  const most = REPLACE_FROM * fibres;
  const limit = `${figure(Math.ceil(most))} closed fibres, one in a hundred, from which a module is replaced (common practice)`;
  if (count >= most) return { limit: 'repairs', kind: 'met', text: `${seen}, which is not below ${limit}.` };
  if (closed.length < LEAST_REPAIRS || !(age >= LEAST_AGE))
    return { limit: 'repairs', kind: 'too-little-data', text: `${seen}: too few repairs to tell when it comes to ${limit}; 2 are needed.` };
  const growth = repairGrowth(
    closed.map((one) => one.age),
    age,
  );
  const further = Math.max(1, Math.ceil((most - count) / (count / closed.length)));
  return { limit: 'repairs', kind: 'known', usualOnly: false, met: repairsWithin(growth, further), text: `${seen}; at ${limit}.` };
}

function seenInWords(closed: ModuleRepairs['closed'], count: number, fibres: number | null): string {
  if (closed.length === 0) return 'No fibre of it was closed';
  const areaM2 = closed.reduce((sum, { areaLostM2 }) => sum + (areaLostM2 ?? 0), 0);
  const of = fibres === null ? '' : ` of ${figure(fibres)}`;
  const area = areaM2 === 0 ? '' : `, ${figure(areaM2)} m2 of its area`;
  return `${count}${of} fibres closed in ${closed.length} ${closed.length === 1 ? 'repair' : 'repairs'}${area}`;
}
