import { figure } from '../../../shared/figure.js';
import { DAYS_ALIKE } from '../ninths.js';
import { normalCdf } from '../normal.js';
import type { LimitSaid } from './limit-of-module.js';

export interface ModuleContacts {
  /** Days that the module has served */
  readonly age: number;
  /** Days of its service of which cleans are on record */
  readonly knownDays: number;
  /** Contacts with free chlorine in those days: ppm h, null where strength or time is not on record */
  readonly contacts: readonly (number | null)[];
  /** What the maker states; null: not on record */
  readonly makerPpmH: number | null;
}

/** 100,000 to 500,000 ppm h by material. Common practice. */
const USUAL_PPM_H = 250_000;
/** Eight in ten of the usual limits lie between 100,000 and 500,000. */
const USUAL_SPREAD = 0.63;
const LEAST_DAYS = 30;

/**
 * When a module will have been in contact with as much free chlorine as its maker states. What is on record is taken to have gone on at the same pace before the record began, and contacts of which strength or time is not on
 * record count as the mean of the others. Days ahead go by the same pace, with the scatter of its contacts.
 *
 * Without a figure of the maker the usual one of the trade is told, with its wide range: that it still serves says that its own limit lies higher than what it has had. It is marked, and counts for nothing else.
 *
 * Source: concentration times time (common practice); see `oxidantExposure` for what it leaves out.
 *
 * @example oxidantOfModule({ age: 900, knownDays: 0, contacts: [], makerPpmH: 250000 }).kind // => "too-little-data"
 */
export function oxidantOfModule({ age, knownDays, contacts, makerPpmH }: ModuleContacts): LimitSaid {
  const known = contacts.filter((ppmH): ppmH is number => ppmH !== null && Number.isFinite(ppmH) && ppmH >= 0);
  const maker = makerPpmH === null ? '' : `; the maker states ${figure(makerPpmH)} ppm h`;
  if (!(knownDays >= LEAST_DAYS))
    return {
      limit: 'oxidant',
      kind: 'too-little-data',
      text: `Cleans are on record for ${Math.max(0, Math.floor(knownDays))} days of its service; 30 are needed${maker}.`,
    };
  if (known.length === 0) {
    const none = contacts.length === 0 ? 'No contact with free chlorine is on record' : 'Of no contact with free chlorine are strength and time on record';
    return { limit: 'oxidant', kind: 'too-little-data', text: `${none}${maker}.` };
  }
  const sum = known.reduce((total, ppmH) => total + ppmH, 0);
  const scale = contacts.length / known.length;
  const perDay = (sum * scale) / knownDays;
  const now = perDay * Math.max(age, knownDays);
  // Contacts come at random, of many sizes: a week is alike.
  const sdPerDay = Math.sqrt((known.reduce((total, ppmH) => total + ppmH ** 2, 0) * scale) / knownDays);
  const spreadOn = (days: number) => sdPerDay * Math.sqrt(DAYS_ALIKE * days * (days / knownDays + 1));
  const before = age - knownDays >= 1 ? ', what came before the record reckoned at the same pace' : '';
  const unknown = contacts.length === known.length ? '' : `, ${contacts.length - known.length} of them of unknown strength or time`;
  const seen = `About ${figure(now)} ppm h of contact with free chlorine (${contacts.length} on record${unknown}${before}), ${figure(perDay)} a day`;
  if (makerPpmH === null) {
    const share = (ppmH: number) => (ppmH > 0 ? normalCdf(Math.log(ppmH / USUAL_PPM_H) / USUAL_SPREAD) : 0);
    const outlived = 1 - share(now);
    const met = (days: number) => (outlived <= 0 ? 1 : Math.max(0, (share(now + perDay * Math.max(0, days)) - share(now)) / outlived));
    const text = `${seen}; no figure of the maker is on record: common practice is 250,000 ppm h, from 100,000 to 500,000 by material. That counts for nothing else here.`;
    return { limit: 'oxidant', kind: 'known', usualOnly: true, met, text };
  }
  if (now >= makerPpmH) return { limit: 'oxidant', kind: 'met', text: `${seen}: more than the ${figure(makerPpmH)} ppm h that the maker states.` };
  const met = (days: number) => (days > 0 ? normalCdf((perDay * days - (makerPpmH - now)) / spreadOn(days)) : 0);
  return { limit: 'oxidant', kind: 'known', usualOnly: false, met, text: `${seen}${maker}.` };
}
