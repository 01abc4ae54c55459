import { day, number } from '../../../shared/format.js';
import { chemicalUse } from '../chemical-use.js';
import type { Block, Cell } from '../document.js';
import { at, type Manner } from '../manner.js';
import type { PeriodTank, SkidPeriod } from '../period-data.js';
import { words } from '../words.js';

/** What came into the tanks and what was drawn from them. Nothing where there is no tank. */
export function chemicalsSection({ tanks }: Pick<SkidPeriod, 'tanks'>, manner: Manner): Block[] {
  if (tanks.length === 0) return [];
  const { title, tank, chemical, delivered, used, between, runsOut } = words.chemicals;
  return [
    { kind: 'heading', level: 2, text: title },
    {
      kind: 'table',
      caption: title,
      columns: [{ name: tank }, { name: chemical }, { name: delivered, numeric: true }, { name: used, numeric: true }, { name: between }, { name: runsOut }],
      rows: tanks.map((row): Cell[] => [row.name, row.chemical, number(deliveredL(row)), ...useOf(row, manner), day(row.runOutOn)]),
    },
    ...deliveriesOf(tanks, manner),
  ];
}

const deliveredL = ({ deliveries }: PeriodTank): number => deliveries.reduce((sum, { volumeL }) => sum + volumeL, 0);

function useOf(tank: PeriodTank, manner: Manner): [string, string] {
  const use = chemicalUse(tank);
  if (use.kind === 'too-little-data') return [words.none, words.chemicals.tooFewDips];
  return [number(use.usedL), words.period(at(use.fromAt, manner), at(use.toAt, manner))];
}

function deliveriesOf(tanks: readonly PeriodTank[], manner: Manner): Block[] {
  const rows = tanks
    .flatMap(({ name, deliveries }) => deliveries.map((each) => ({ name, ...each })))
    .sort((a, b) => Date.parse(a.at) - Date.parse(b.at))
    .map((each): Cell[] => [at(each.at, manner), each.name, number(each.volumeL), number(each.strengthGL, 1), each.lot ?? words.none]);
  if (rows.length === 0) return [];
  const { deliveries, tank, volume, strength, lot } = words.chemicals;
  return [
    { kind: 'heading', level: 3, text: deliveries },
    {
      kind: 'table',
      caption: deliveries,
      columns: [{ name: words.work.when }, { name: tank }, { name: volume, numeric: true }, { name: strength, numeric: true }, { name: lot }],
      rows,
    },
  ];
}
