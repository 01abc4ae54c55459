import { DAY_MS } from '../../../seed/generate/period.js';
import { BadInput, type Print, type Values } from '../evaluation.js';
import { sweptFigures } from '../handread/figures.js';
import { sweep } from '../handread/sweep.js';
import { Draws } from '../installed-base/draws.js';
import { drawSkid } from './draw-skid.js';
import { dirtOf } from './weather.js';

const DAYS = 900;
const SKIDS_OF_REGION = 6;
const FROM_MS = Date.UTC(2024, 0, 1);

/** Forecasts the cartridge and cleaning dates of a drawn fleet in every week of its record, and prints how right they were. */
export function forecastFleet(values: Values, print: Print): void {
  const [count, seed] = ['skids', 'seed'].map((name) => {
    const number = Number(values[name]);
    if (!Number.isInteger(number) || number < 1) throw new BadInput(`--${name} must be a whole number from 1 on, not "${String(values[name])}"`);
    return number;
  }) as [number, number];
  const draws = new Draws(seed);
  const regions = Array.from({ length: Math.ceil(count / SKIDS_OF_REGION) }, () => dirtOf(DAYS, draws));
  const skids = Array.from({ length: count }, (_, at) => drawSkid(`skid ${at + 1}`, regions[Math.floor(at / SKIDS_OF_REGION)] ?? [], FROM_MS, draws));
  sweptFigures(
    print,
    { set: `${count} skids, seed ${seed}`, case: 'drawn fleet' },
    sweep(skids, ({ logged }) => logged, FROM_MS, FROM_MS + DAYS * DAY_MS),
  );
}
