import { max, median } from 'd3-array';
import { type Day, dayInWords, daysBetween } from '../../../shared/day.js';
import { figure } from '../../../shared/figure.js';

/** What a forecast was made from, as it was read. */
export interface RecordOfLimit {
  /** What is forecast, as the beginning of a sentence */
  readonly what: string;
  readonly unit: string;
  readonly values: readonly { readonly day: Day; readonly value: number }[];
  /** Water of each day, m3 */
  readonly filtrate: readonly { readonly day: Day; readonly m3: number | null }[];
  /** The limit, and on which side of the clean value it has to lie */
  readonly limit: number;
  readonly isMetWhen: 'above' | 'below';
  readonly fittedOn: Day | null;
  readonly originDay: Day;
}

const RECENT_VALUES = 14;
const ALIKE = 1e-9;
const FEWEST_ALIKE = 7;
const GAP_DAYS = 30;
/** More water in one day than so many usual ones is a counter that jumped. */
const JUMP = 10;
const FEWEST_DAYS = 7;
const CLEAN_VALUES = 3;

/**
 * What cannot be right in the record of a forecast, in sentences that say what to check: readings that never change, that are nought or below, that stop or pause for a month, water that a counter cannot have
 * counted, a limit on the wrong side of the clean value, a part that is fitted later than anything was read. The forecast is made all the same, or says why not; whoever reads it has to know.
 *
 * Source: own definition; checks of this kind are common practice (gross range, flat line, gap, rate of change).
 *
 * @example oddRecord({ what: 'The permeability', unit: 'L/m2 h bar', values: [], filtrate: [], limit: 140, isMetWhen: 'below', fittedOn: null, originDay: '2026-01-01' }) // => []
 */
export function oddRecord(read: RecordOfLimit): string[] {
  const record = {
    ...read,
    values: read.values.filter(({ value }) => Number.isFinite(value)),
    filtrate: read.filtrate.filter(({ m3 }) => m3 === null || Number.isFinite(m3)),
  };
  return [...oddValues(record), ...oddGaps(record), ...oddWater(record), ...oddLimit(record), ...oddPart(record)];
}

function oddValues({ what, unit, values }: RecordOfLimit): string[] {
  const recent = values.slice(-RECENT_VALUES);
  const last = recent.at(-1)?.value;
  if (last === undefined) return [];
  const none = recent.filter(({ value }) => !(value > 0)).length;
  const alike = recent.length - (recent.findLastIndex(({ value }) => !(Math.abs(value - last) <= ALIKE * Math.abs(last))) + 1);
  return [
    ...(none === 0 ? [] : [`Check this instrument: ${lowered(what)} reads nought or below on ${none} of the last ${recent.length} days with a value.`]),
    ...(last > 0 && alike >= FEWEST_ALIKE
      ? [`Check this instrument: ${lowered(what)} has read exactly ${figure(last)} ${unit} on the last ${alike} days with a value.`]
      : []),
  ];
}

function oddGaps({ what, values, originDay }: RecordOfLimit): string[] {
  const days = values.map(({ day }) => day);
  const pauses = days.slice(1).flatMap((day, at) => {
    const before = days[at] ?? day;
    return daysBetween(before, day) > GAP_DAYS ? [{ before, day, length: daysBetween(before, day) }] : [];
  });
  const longest = pauses.find(({ length }) => length === max(pauses, (pause) => pause.length));
  const last = days.at(-1);
  const silent = last === undefined ? 0 : daysBetween(last, originDay);
  return [
    ...(longest === undefined
      ? []
      : [
          `${what} was not read for ${longest.length} days, from ${dayInWords(longest.before, originDay)} to ${dayInWords(longest.day, originDay)}: what happened then is not known.`,
        ]),
    ...(last !== undefined && silent > GAP_DAYS
      ? [`Check this instrument: ${lowered(what)} was last read on ${dayInWords(last, originDay)}, ${silent} days before the latest reading.`]
      : []),
  ];
}

function oddWater({ filtrate, originDay }: RecordOfLimit): string[] {
  const known = filtrate.flatMap(({ day, m3 }) => (m3 === null ? [] : [{ day, m3 }]));
  const usual = median(
    known.filter(({ m3 }) => m3 > 0),
    ({ m3 }) => m3,
  );
  if (usual === undefined || known.length < FEWEST_DAYS) return [];
  const odd = known.findLast(({ m3 }) => m3 < 0 || m3 > JUMP * usual);
  return odd === undefined
    ? []
    : [`Check the flow meter: ${figure(odd.m3)} m3 of filtrate stand against ${dayInWords(odd.day, originDay)}, where ${figure(usual)} m3 a day are usual.`];
}

function oddLimit({ what, unit, values, limit, isMetWhen }: RecordOfLimit): string[] {
  if (!(limit > 0)) return [`Check the limit: it is ${figure(limit)} ${unit}, and has to lie above nought.`];
  const clean = median(values.slice(0, CLEAN_VALUES), ({ value }) => value);
  const isWrong = clean !== undefined && clean > 0 && (isMetWhen === 'above' ? limit <= clean : limit >= clean);
  return isWrong ? [`Check the limit: ${lowered(what)} was ${figure(clean)} ${unit} when it began, which is past ${figure(limit)} ${unit} already.`] : [];
}

function oddPart({ fittedOn, originDay }: RecordOfLimit): string[] {
  return fittedOn === null || fittedOn <= originDay
    ? []
    : [`Check the date: the part is on record as fitted on ${dayInWords(fittedOn, originDay)}, after the latest reading.`];
}

const lowered = (what: string): string => what.charAt(0).toLowerCase() + what.slice(1);
