import { localDays } from '../condition/core/local-day.js';
import { type Day, dayPlus } from '../shared/day.js';
import { type Balance, balanceOf } from './core/balance.js';
import { type Cover, coverOf } from './core/cover.js';
import { type DailyUse, dailyUseOf } from './core/daily-use.js';
import { daysToShare } from './core/hypochlorite-strength.js';
import { neededOver, needsOf } from './core/needs.js';
import { usableAtLevelL } from './core/tank-volume.js';
import type { CoverToStore } from './cover.repository.js';
import { daysOver, litresBetween, type TankRecord, tankRecord } from './tank-record.js';
import type { TankSituation } from './tank-situations.js';

/** Cover is reckoned with the use of four whole weeks, and so is the balance that corrects it. Common practice. */
const USE_DAYS = 28;
/** The books look back this far: half a year of weekly dips. */
export const BOOK_DAYS = 190;
/** What has fallen to this share of its strength when it came is assayed before it is relied on. Common practice. */
export const WEAK_SHARE = 0.9;

/** How long a tank lasts, from its last dip, what was poured in since, and the use of recent weeks as set points and dips show it; and what its books say. */
export function coverOfTank(situation: TankSituation): CoverToStore {
  const { tank, facts, consumers, beyond, now } = situation;
  const record = tankRecord(situation);
  const { said, today } = record;
  const last = record.dips.at(-1);
  const balance = balanceSince(situation, record);
  const recent = Array.from({ length: USE_DAYS }, (_, at) => dayPlus(today, at - USE_DAYS));
  const asked = needsOf([...consumers, ...beyond], recent, (day) => record.strengthAt(noon(day)));
  const dailyUse = asked === null ? null : dailyUseOf([...asked.byDay.values()], balance, asked.outsideSdL);
  const cover = coverOf({
    dip: last === undefined ? null : { at: last.at, usableL: usableAtLevelL(tank, last.levelM), strengthGL: record.strengthAt(last.at), errorL: last.errorL },
    deliveredSinceL: last === undefined ? 0 : litresBetween(facts.deliveries, last.at, now),
    dailyUse,
    storageC: record.storageC,
    losesStrength: record.losesStrength,
    now,
    timeZone: tank.timeZone,
  });
  return {
    tankId: tank.id,
    ...toStore(cover, dailyUse),
    expiresOn: expiryOf(situation, record),
    expectedUseL: balance?.expectedL ?? null,
    observedUseL: balance?.observedL ?? null,
    balanceState: said.state,
    balanceWords: said.words,
    driftLDay: said.driftLDay,
    dataUsed: [
      `${asked?.byDay.size ?? 0} days of use before ${today}`,
      `${facts.dips.length} dips, ${facts.deliveries.length} deliveries, ${situation.assays.length} assays`,
      ...(asked?.consumers ?? []).map(({ name, litresPerDay }) => `${name}: ${litresPerDay.toFixed(1)} L a day by its set points`),
      ...(balance === null ? [] : [`Balance of four weeks: ${Math.round(balance.observedL)} L by dips, ${Math.round(balance.expectedL)} L expected`]),
    ],
  };
}

/** Observed against expected between the last dip and the one that lies about four weeks before it. */
function balanceSince({ tank, facts }: TankSituation, { dips, needs, dayOf }: TankRecord): Balance | null {
  const last = dips.at(-1);
  if (last === undefined || needs === null) return null;
  const lastDay = dayOf(last.at);
  const first = dips.find(({ at }) => dayOf(at) >= dayPlus(lastDay, -USE_DAYS));
  if (first === undefined || first === last) return null;
  const expectedL = neededOver(needs.byDay, daysOver(first.at, last.at, localDays(tank.timeZone)));
  if (expectedL === null) return null;
  return balanceOf({
    openingL: first.volumeL,
    closingL: last.volumeL,
    deliveredL: litresBetween(facts.deliveries, first.at, last.at) - litresBetween(facts.passedOn, first.at, last.at),
    expectedL,
    dipErrorL: Math.max(first.errorL, last.errorL),
  });
}

/** As the last delivery note says; else, of hypochlorite, when it has lost a tenth since it came. */
function expiryOf({ facts, now }: TankSituation, { losesStrength, storageC, strengthAt, dayOf }: TankRecord): Day | null {
  const last = facts.deliveries.findLast(({ at }) => at <= now);
  if (last === undefined) return null;
  if (last.expiresOn !== null) return last.expiresOn;
  const strengthGL = strengthAt(last.at);
  return losesStrength && strengthGL !== null && strengthGL > 0 ? dayPlus(dayOf(last.at), Math.floor(daysToShare(strengthGL, WEAK_SHARE, storageC))) : null;
}

const noon = (day: Day) => new Date(`${day}T12:00:00Z`);

type OfCover = Pick<
  CoverToStore,
  'kind' | 'reason' | 'lastDipAt' | 'volumeL' | 'strengthGL' | 'dailyUseL' | 'useSdL' | 'earlyDays' | 'likelyDays' | 'lateDays' | 'runOutOn'
>;

function toStore(cover: Cover, dailyUse: DailyUse | null): OfCover {
  const { kind, reason } = cover;
  if (cover.kind === 'too-little-data') {
    const unknown = { volumeL: null, strengthGL: null, dailyUseL: null, useSdL: null, earlyDays: null, likelyDays: null, lateDays: null, runOutOn: null };
    return { kind, reason, lastDipAt: null, ...unknown };
  }
  const { lastDipAt, volumeL, strengthGL, dailyUseL, earlyDays, likelyDays, lateDays, runOutOn } = cover;
  return { kind, reason, lastDipAt, volumeL, strengthGL, dailyUseL, useSdL: dailyUse?.sdL ?? null, earlyDays, likelyDays, lateDays, runOutOn };
}
