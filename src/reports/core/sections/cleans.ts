import { day, number, written } from '../../../shared/format.js';
import { unitDigits, unitLabel } from '../../../shared/unit-choice.js';
import { fromStored } from '../../../shared/units.js';
import type { Block, Cell } from '../document.js';
import type { Manner } from '../manner.js';
import type { PeriodClean, SkidPeriod } from '../period-data.js';
import { recoveryOf } from '../recovery.js';
import { words } from '../words.js';

/** Recovery cleans one by one with what they gave back; maintenance cleans, of which there may be hundreds, by their number. */
export function cleansSection({ cleans, trends }: Pick<SkidPeriod, 'cleans' | 'trends'>, { units }: Manner): Block[] {
  const heading: Block = { kind: 'heading', level: 2, text: words.cleans.title };
  if (cleans.length === 0) return [heading, { kind: 'paragraph', text: words.cleans.none }];
  const cebs = cleans.filter(({ kind }) => kind === 'CEB');
  const recoveries = recoveryCleans(cleans);
  const unit = unitLabel(units.permeability);
  const permeability = trends.find(({ quantity }) => quantity === 'permeability') ?? { firstDay: null, values: [] };
  const show = (value: number | null) => number(value === null ? null : fromStored(value, units.permeability), unitDigits(units.permeability));
  const rows = recoveries.map((clean): Cell[] => {
    const { before, after } = recoveryOf(permeability, clean.day);
    return [day(clean.day), clean.note === '' ? clean.chemicals : `${clean.chemicals}\n${clean.note}`, show(before), show(after), gain(before, after)];
  });
  const { day: when, chemicals, before, after, gain: change } = words.cleans;
  return [
    heading,
    ...(cebs.length > 0 ? [{ kind: 'paragraph', text: words.cleans.ceb(number(cebs.length), byChemical(cebs)) } as const] : []),
    rows.length === 0
      ? { kind: 'paragraph', text: words.cleans.noCip }
      : {
          kind: 'table',
          caption: words.cleans.cip,
          columns: [
            { name: when },
            { name: chemicals },
            { name: before(unit), numeric: true },
            { name: after(unit), numeric: true },
            { name: change, numeric: true },
          ],
          rows,
        },
  ];
}

/** What was done on one day is one recovery clean, whatever the number of its chemicals. */
export function recoveryCleans(cleans: readonly PeriodClean[]): { day: string; chemicals: string; note: string }[] {
  const days = new Map<string, { chemicals: string[]; notes: Set<string> }>();
  for (const { kind, day: on, chemical, strengthMgL, contactMinutes, note } of cleans) {
    if (kind !== 'CIP') continue;
    const known = days.get(on) ?? { chemicals: [], notes: new Set() };
    const { strength, minutes } = words.cleans;
    const details = [strengthMgL === null ? '' : strength(written(strengthMgL)), contactMinutes === null ? '' : minutes(written(contactMinutes))];
    known.chemicals.push([chemical, ...details].filter(Boolean).join(', '));
    if (note !== '') known.notes.add(note);
    days.set(on, known);
  }
  return [...days].map(([on, { chemicals, notes }]) => ({ day: on, chemicals: chemicals.join('\n'), note: [...notes].join('; ') }));
}

function byChemical(cleans: readonly PeriodClean[]): string {
  const counts = new Map<string, number>();
  for (const { chemical } of cleans) counts.set(chemical, (counts.get(chemical) ?? 0) + 1);
  return [...counts].map(([chemical, count]) => `${number(count)} × ${chemical}`).join(', ');
}

function gain(before: number | null, after: number | null): string {
  if (before === null || after === null || before === 0) return words.none;
  const share = Math.round((after / before - 1) * 100);
  return `${share > 0 ? '+' : ''}${number(share)} %`;
}
