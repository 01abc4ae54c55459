import { learnLevels } from '../../outlook/core/permeability/level-law.js';
import { BadInput, type Options, type Print, type Values } from '../evaluation.js';
import { aheadFigures, changesOf, lawOfOthers, lawOfTheDay, lessonsOfUnits } from './ahead-figures.js';
import { cleaningFigures } from './cleaning-figures.js';
import { readUnits, unitRuns } from './unit-runs.js';

export const help = `
npm run evaluate -- membrane --units units_daily.csv [--train units_daily.csv]

Forecasts the specific flux and the normalised pressure drop of membrane units 14, 30 and 60 days ahead, in every week of every run between cleans that has sixty values before it,
and the days to the next clean. units_daily.csv has a row for each unit and day: date, unit, cip (1 on a day with a clean), area_weighted_specific_flux, and perhaps unit_n_delta_p.

unit-unseen: learned from all other units. as-known: from all units, but only what had come by that day; unit-known: from all others and the unit's own earlier runs. With --train
(train-test) learned from that file alone.
pooled goes over all units, worst is the unit that came off worst. coverage80 stands with the range in which a true 80 % would lie by chance for so many cycles.
`;

export const options: Options = {
  units: { type: 'string', file: true },
  train: { type: 'string', file: true },
};

const SIGNALS: Readonly<Record<string, string>> = { area_weighted_specific_flux: 'specific flux', unit_n_delta_p: 'normalised dP' };

export async function evaluate({ units, train }: Values, print: Print): Promise<void> {
  if (typeof units !== 'string') throw new BadInput('--units is needed');
  const rows = readUnits(units);
  const trainRows = typeof train === 'string' ? readUnits(train) : null;
  const known = Object.keys(SIGNALS).filter((column) => rows[0]?.[column] !== undefined);
  if (known.length === 0) throw new BadInput(`${units} has none of ${Object.keys(SIGNALS).join(', ')}`);
  for (const column of known) {
    const runs = unitRuns(rows, column);
    const changes = changesOf(runs);
    const shared = { set: `${new Set(runs.map(({ unit }) => unit)).size} units, ${runs.length} runs`, value: SIGNALS[column] ?? column };
    if (changes.length === 0) throw new BadInput(`${units} holds no run of ${column} with sixty values and two weeks after them`);
    if (trainRows === null) {
      aheadFigures(print, { ...shared, case: 'unit-unseen' }, runs, lawOfOthers(lessonsOfUnits(runs)));
      aheadFigures(print, { ...shared, case: 'as-known' }, runs, lawOfTheDay(lessonsOfUnits(runs)));
    } else {
      const law = learnLevels(lessonsOfUnits(unitRuns(trainRows, column)), [14, 30, 60]);
      aheadFigures(print, { ...shared, case: 'train-test' }, runs, () => law);
    }
    if (column === known[0]) cleaningFigures(print, shared, runs, trainRows === null ? null : unitRuns(trainRows, column));
  }
}
