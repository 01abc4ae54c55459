import { quantile } from 'd3-array';
import { localDays } from '../../condition/core/local-day.js';
import { DAYS_ALIKE, NINTHS } from '../../outlook/core/ninths.js';
import { type Day, dayInWords, dayPlus } from '../../shared/day.js';
import { figure } from '../../shared/figure.js';
import { coverDays, drawnL } from './cover-days.js';
import type { DailyUse } from './daily-use.js';
import { lossPerDay, strengthAfterGL } from './hypochlorite-strength.js';

export interface CoverInput {
  /** The last dip: usable litres, strength then (`null`: a chemical that keeps), and the standard error of its litres */
  readonly dip: { readonly at: Date; readonly usableL: number; readonly strengthGL: number | null; readonly errorL: number } | null;
  /** Poured in since the dip */
  readonly deliveredSinceL: number;
  readonly dailyUse: DailyUse | null;
  /** Where hypochlorite is stored; `null` is taken as 20 degC. Other chemicals lose nothing */
  readonly storageC: number | null;
  readonly losesStrength: boolean;
  readonly now: Date;
  readonly timeZone: string;
}

export type Cover =
  | {
      readonly kind: 'cover';
      readonly lastDipAt: Date;
      readonly dipAgeDays: number;
      /** Usable now by the book: dip and deliveries less what was drawn since */
      readonly volumeL: number;
      readonly strengthGL: number | null;
      readonly dailyUseL: number;
      /** 1 in 10 shorter, as likely as not, 1 in 10 longer; `null` beyond two years */
      readonly earlyDays: number | null;
      readonly likelyDays: number | null;
      readonly lateDays: number | null;
      readonly runOutOn: Day | null;
      readonly reason: string;
    }
  | { readonly kind: 'too-little-data'; readonly have: string; readonly need: string; readonly reason: string };

const MS_PER_DAY = 86_400_000;
const LONGEST_DAYS = 730;
const USUAL_STORAGE_C = 20;
/** Real use differs from reckoned use by about a tenth, and by as much again for each fortnight without a dip. Common practice. */
const BOOK_ERROR_SHARE = 0.1;
const ERROR_DOUBLES_AFTER_DAYS = 14;

/**
 * Days of cover of a tank, as a range: when a chemical runs out, so that it can be ordered or brought in time.
 *
 * From the last dip and what was poured in since, usable volume lasts D + (loss/2) D^2 = volume / daily use; the days since the dip are taken off. The range
 * takes nine equally likely volumes (error of the dip) with nine equally likely rates of use: the scatter between days, what the mean is not sure
 * of, and an error of the book that grows with the age of the dip, so that a stale dip always widens the range.
 *
 * `too-little-data` without a dip, or without use to divide by. 0 days where the book says that the tank is empty already.
 *
 * Source: common practice; the loss of strength as `lossPerDay`.
 *
 * @example coverOf({ dip: null, deliveredSinceL: 0, dailyUse: null, storageC: null, losesStrength: false, now: new Date('2025-11-25T06:00:00Z'), timeZone: 'UTC' }).kind // => "too-little-data"
 */
export function coverOf(input: CoverInput): Cover {
  const { dip, dailyUse, now } = input;
  if (dip === null) return tooLittle('No dip of this tank is on record', 'a dip');
  if (dailyUse === null || !(dailyUse.meanL > 0))
    return tooLittle(`The last dip showed ${whole(dip.usableL)} L that can be used, but no use is on record`, 'days on which the chemical is used');
  const ageDays = Math.max(0, (now.getTime() - dip.at.getTime()) / MS_PER_DAY);
  const temperatureC = input.storageC ?? USUAL_STORAGE_C;
  const loses = input.losesStrength && dip.strengthGL !== null;
  const loss = loses ? lossPerDay(dip.strengthGL ?? 0, temperatureC) : 0;
  const availableL = dip.usableL + input.deliveredSinceL;
  const likely = (coverDays(availableL, dailyUse.meanL, loss) ?? 0) - ageDays;
  const rateError = Math.hypot(
    dailyUse.sdL * Math.sqrt(DAYS_ALIKE / Math.max(dailyUse.days, DAYS_ALIKE) + DAYS_ALIKE / Math.max(likely + ageDays, DAYS_ALIKE)),
    dailyUse.meanL * BOOK_ERROR_SHARE * (1 + ageDays / ERROR_DOUBLES_AFTER_DAYS),
  );
  // A rate below a tenth of the mean is no use that this mean could come from.
  const rates = NINTHS.map((z) => Math.max(dailyUse.meanL / 10, dailyUse.meanL + z * rateError));
  const cases = NINTHS.flatMap((z) => rates.map((rate) => (coverDays(availableL + z * dip.errorL, rate, loss) ?? 0) - ageDays));
  const [earlyDays, likelyDays, lateDays] = [quantile(cases, 0.1), likely, quantile(cases, 0.9)].map(shown) as [number | null, number | null, number | null];
  const volumeL = Math.max(0, availableL - drawnL(ageDays, dailyUse.meanL, loss));
  const strengthGL = loses ? strengthAfterGL(dip.strengthGL ?? 0, ageDays, temperatureC) : dip.strengthGL;
  const today = localDays(input.timeZone)(now.getTime()).day;
  const runOutOn = likelyDays === null ? null : dayPlus(today, Math.floor(likelyDays));
  return {
    kind: 'cover',
    lastDipAt: dip.at,
    dipAgeDays: ageDays,
    volumeL,
    strengthGL,
    dailyUseL: dailyUse.meanL,
    earlyDays,
    likelyDays,
    lateDays,
    runOutOn,
    reason: reasonOf({
      dipOn: localDays(input.timeZone)(dip.at.getTime()).day,
      today,
      usableL: dip.usableL,
      input,
      volumeL,
      dailyUseL: dailyUse.meanL,
      loss,
      earlyDays,
      lateDays,
    }),
  };
}

function shown(days: number | undefined): number | null {
  return days === undefined || days > LONGEST_DAYS ? null : Math.max(0, days);
}

function tooLittle(have: string, need: string): Cover {
  return { kind: 'too-little-data', have, need, reason: `${have}; it takes ${need} to say how long the tank lasts.` };
}

interface Told {
  readonly dipOn: Day;
  readonly today: Day;
  readonly usableL: number;
  readonly input: CoverInput;
  readonly volumeL: number;
  readonly dailyUseL: number;
  readonly loss: number;
  readonly earlyDays: number | null;
  readonly lateDays: number | null;
}

function reasonOf({ dipOn, today, usableL, input, volumeL, dailyUseL, loss, earlyDays, lateDays }: Told): string {
  const poured = input.deliveredSinceL > 0 ? ` and ${whole(input.deliveredSinceL)} L were poured in since` : '';
  const weaker = loss > 0 ? ', more as it loses strength' : '';
  const begun = `The dip of ${dayInWords(dipOn, today)} showed ${whole(usableL)} L that can be used${poured}; at ${figure(dailyUseL)} L a day${weaker}`;
  if (volumeL === 0) return `${begun} the tank is empty by now: take a dip.`;
  const lasts = `about ${whole(volumeL)} L are left today, which last`;
  if (earlyDays === null) return `${begun} ${lasts} more than two years.`;
  if (lateDays === null) return `${begun} ${lasts} ${Math.floor(earlyDays)} days or more.`;
  const [early, late] = [Math.floor(earlyDays), Math.ceil(lateDays)];
  return `${begun} ${lasts} ${early} to ${late} days, until between ${dayInWords(dayPlus(today, early), today)} and ${dayInWords(dayPlus(today, late), today)}.`;
}

const WHOLE = new Intl.NumberFormat('en-GB', { maximumFractionDigits: 0 });
const whole = (value: number) => WHOLE.format(value);
