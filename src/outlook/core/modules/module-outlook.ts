import { figure } from '../../../shared/figure.js';
import { limitForecast } from '../days-to-limit.js';
import { byLivesInWords, byTheRule, keptByDays, lifeByAge, middleLifeOf, type PartInUse } from '../lives/life-outlook.js';
import type { LimitForecast } from '../outlook.js';
import { calibrated } from '../record/calibration.js';
import { whenInWords } from '../when-in-words.js';
import { earliestOf, firstOf } from './earliest-of.js';
import type { LimitSaid, ModuleLimit } from './limit-of-module.js';
import { type ModuleContacts, oxidantOfModule } from './oxidant-of-module.js';
import { type ModuleRepairs, repairsOfModule } from './repairs-of-module.js';

export const MODULE_MODEL = { model: 'module: age, closed fibres and oxidant', modelVersion: '1' } as const;

export interface ModuleInUse {
  readonly part: PartInUse;
  /** Days that it has served */
  readonly ageDays: number;
  /** Filtration cycles of its skid since it was fitted; null: the record begins later */
  readonly cycles: number | null;
  readonly repairs: Omit<ModuleRepairs, 'age'>;
  readonly contacts: Omit<ModuleContacts, 'age'>;
  /** The last pressure-decay test of its unit, in words; null: none is on record */
  readonly lastTest: string | null;
}

/** One of several limits of a part, as it is told beside the outlook that they make together. Days as in a forecast. */
export interface LimitOfPart {
  readonly limit: ModuleLimit;
  readonly kind: 'outlook' | 'limit-met' | 'too-little-data';
  /** Whether it is in the outlook: common practice alone is not */
  readonly counts: boolean;
  /** How likely it is the first of those that count, from 0 to 1 */
  readonly first: number;
  readonly p10Days: number | null;
  readonly p50Days: number | null;
  readonly p90Days: number | null;
  readonly said: string;
}

export type ModuleOutlook = {
  readonly clock: string;
  readonly text: string;
  readonly dataUsed: readonly string[];
  readonly limits: readonly LimitOfPart[];
  readonly middleLife: number;
} & (({ readonly kind: 'outlook'; readonly stretch: number } & LimitForecast) | { readonly kind: 'limit-met' } | { readonly kind: 'too-little-data' });

const NAMES: Readonly<Record<ModuleLimit, string>> = { age: 'its age', repairs: 'its closed fibres', oxidant: 'its contact with free chlorine' };
const YEAR_DAYS = 365.25;

/**
 * When a module will be replaced: the earliest of its age (how long modules have lived in the fleet, see `lifeOutlook`), its closed fibres (`repairsOfModule`) and its contact with free chlorine (`oxidantOfModule`), each of
 * which is told by itself as well. Which of them comes first is told with how likely that is.
 *
 * `limit-met` where fibres closed or contact have come to their limit; `too-little-data` where nothing can be told of any of the three: then the interval of a rule, as for other parts.
 *
 * Source: competing limits (see `earliestOf`).
 *
 * @example moduleOutlook({ part: { kind: 'module', clocks: [], rule: null, originDay: '2026-11-25' }, ageDays: 10, cycles: null, repairs: { fibres: null, closed: [] }, contacts: { knownDays: 0, contacts: [], makerPpmH: null }, lastTest: null }).kind // => "too-little-data"
 */
export function moduleOutlook({ part, ageDays, cycles, repairs, contacts, lastTest }: ModuleInUse): ModuleOutlook {
  const { originDay, stretchFor } = part;
  const byAge = lifeByAge(part);
  const rule = byTheRule(part);
  const age: LimitSaid =
    byAge === null
      ? { limit: 'age', kind: 'too-little-data', text: rule.text }
      : { limit: 'age', kind: 'known', usualOnly: false, met: keptByDays(byAge.met), text: `${sentence(byLivesInWords(byAge))}.` };
  const all = [age, repairsOfModule({ ...repairs, age: ageDays }), oxidantOfModule({ ...contacts, age: ageDays })];
  const counted = all.filter((one) => one.kind === 'known' && !one.usualOnly);
  const mets = counted.flatMap((one) => (one.kind === 'known' ? [one.met] : []));
  const first = firstOf(mets);
  const limits = all.map((one) => toLimit(one, first[counted.indexOf(one)] ?? 0));
  const served = servedInWords(ageDays, cycles);
  const dataUsed = [
    sentence(served),
    ...all.map(({ text }) => text),
    ...(lastTest === null ? ['No pressure-decay test of its unit is on record'] : [lastTest]),
  ];
  const base = { clock: byAge?.clock ?? 'days', dataUsed, limits, middleLife: byAge === null ? 0 : middleLifeOf(byAge.fleet) };
  const over = all.filter(({ kind }) => kind === 'met');
  if (over.length > 0) return { ...base, kind: 'limit-met', text: `This module has ${served}. ${over.map(({ text }) => text).join(' ')}` };
  if (mets.length === 0) return { ...base, kind: 'too-little-data', text: rule.text };
  const { met, stretch } = calibrated(keptByDays(earliestOf(mets)), `${MODULE_MODEL.model} ${MODULE_MODEL.modelVersion}`, stretchFor);
  const forecast = limitForecast(met);
  const text = `This module has ${served}; ${byWhat(counted)} its end ${whenInWords(forecast, originDay)}.${firstInWords(limits)}`;
  return { ...base, kind: 'outlook', text, stretch, ...forecast };
}

function toLimit(said: LimitSaid, first: number): LimitOfPart {
  const base = { limit: said.limit, said: said.text, first, p10Days: null, p50Days: null, p90Days: null };
  if (said.kind !== 'known') return { ...base, kind: said.kind === 'met' ? 'limit-met' : 'too-little-data', counts: said.kind === 'met' };
  const { p10Days, p50Days, p90Days } = limitForecast(said.met);
  return { ...base, kind: 'outlook', counts: !said.usualOnly, p10Days, p50Days, p90Days };
}

function byWhat(counted: readonly LimitSaid[]): string {
  const names = counted.map(({ limit }) => NAMES[limit]);
  const [only, ...others] = names;
  return others.length === 0 ? `going by ${only} alone` : `going by ${names.slice(0, -1).join(', ')} and ${names.at(-1)}`;
}

/** Only where more than one counts and one of them comes at all. */
function firstInWords(limits: readonly LimitOfPart[]): string {
  const counted = limits.filter(({ counts }) => counts);
  const likeliest = counted.reduce<LimitOfPart | null>((most, one) => (most === null || one.first > most.first ? one : most), null);
  if (counted.length < 2 || likeliest === null || !(likeliest.first > 0)) return '';
  return ` What comes first is ${NAMES[likeliest.limit]}, in ${Math.max(1, Math.round(10 * likeliest.first))} of 10 cases.`;
}

function servedInWords(ageDays: number, cycles: number | null): string {
  const years = ageDays < YEAR_DAYS ? `${figure(Math.floor(ageDays))} days` : `${(ageDays / YEAR_DAYS).toFixed(1)} years`;
  return `served ${years}${cycles === null ? '' : ` and ${figure(cycles)} cycles`}`;
}

const sentence = (text: string): string => `${text.charAt(0).toUpperCase()}${text.slice(1)}`;
