import { localDays } from '../condition/core/local-day.js';
import type { TankFacts } from '../intake/index.js';
import { dayPlus } from '../shared/day.js';
import { chemicalClass } from '../shared/incompatibility.js';
import { type Balance, balanceOf } from './core/balance.js';
import { type Cover, coverOf } from './core/cover.js';
import { dailyUseOf } from './core/daily-use.js';
import { expectedUse, type UseDay } from './core/expected-use.js';
import { strengthRecord } from './core/strength-record.js';
import { usableAtLevelL, volumeAtLevelL } from './core/tank-volume.js';
import type { CoverToStore, TankRow } from './cover.repository.js';

/** Cover is reckoned with the use of four whole weeks, and so is the balance. Common practice. */
export const USE_DAYS = 28;
const USUAL_DIP_ERROR_M = 0.01;
const USUAL_STORAGE_C = 20;

export interface TankSituation {
  readonly tank: TankRow;
  readonly facts: TankFacts;
  /** Of the days since four weeks before the last dip, as far as they are known */
  readonly useDays: readonly UseDay[];
  readonly timeZone: string;
  readonly now: Date;
}

/** How long a tank lasts: from its last dip, what was poured in since, and the use of recent weeks as set points and dips show it. */
export function coverOfTank({ tank, facts, useDays, timeZone, now }: TankSituation): CoverToStore {
  const losesStrength = chemicalClass(tank.chemical) === 'hypochlorite';
  const storageC = tank.storageC ?? USUAL_STORAGE_C;
  const dips = facts.dips.map((dip) => ({ ...dip, volumeL: volumeAtLevelL(tank, dip.levelM) }));
  const aging = strengthRecord(dips, facts.deliveries, { usualGL: tank.strengthGL ?? 0, storageC });
  const strengthAt = (at: Date): number | null => (tank.strengthGL === null ? null : losesStrength ? aging(at) : tank.strengthGL);
  const strengthOn = (day: string): number | null => strengthAt(new Date(`${day}T12:00:00Z`));

  const last = dips.at(-1);
  const dayOf = localDays(timeZone);
  const today = dayOf(now.getTime()).day;
  const recent = useDays.filter(({ day }) => day >= dayPlus(today, -USE_DAYS) && day < today);
  const expected = expectedUse(recent, tank, strengthOn);
  const balance = balanceSince({ tank, facts, useDays, timeZone, now }, strengthOn);
  const cover = coverOf({
    dip:
      last === undefined ? null : { at: last.at, usableL: usableAtLevelL(tank, last.levelM), strengthGL: strengthAt(last.at), errorL: dipErrorL(tank, last) },
    deliveredSinceL: facts.deliveries.filter(({ at }) => last !== undefined && at > last.at).reduce((sum, { volumeL }) => sum + volumeL, 0),
    dailyUse: expected === null ? null : dailyUseOf(expected.daily, balance),
    storageC,
    losesStrength,
    now,
    timeZone,
  });
  const books =
    balance === null
      ? []
      : [`Balance of four weeks: ${Math.round(balance.observedL)} L by dips, ${Math.round(balance.expectedL)} L expected: ${balance.verdict}`];
  const used = [`${recent.length} days of use before ${today}`, `${facts.dips.length} dips, ${facts.deliveries.length} deliveries`, ...books];
  return { tankId: tank.id, ...toStore(cover), expectedUseL: balance?.expectedL ?? null, observedUseL: balance?.observedL ?? null, dataUsed: used };
}

/** Observed against expected between the last dip and the one that lies about four weeks before it. */
function balanceSince({ tank, facts, useDays, timeZone }: TankSituation, strengthOn: (day: string) => number | null): Balance | null {
  const last = facts.dips.at(-1);
  if (last === undefined) return null;
  const dayOf = localDays(timeZone);
  const lastDay = dayOf(last.at.getTime()).day;
  const first = facts.dips.find(({ at }) => dayOf(at.getTime()).day >= dayPlus(lastDay, -USE_DAYS));
  if (first === undefined || first === last) return null;
  const firstDay = dayOf(first.at.getTime()).day;
  const expected = expectedUse(
    useDays.filter(({ day }) => day >= firstDay && day < lastDay),
    tank,
    strengthOn,
  );
  if (expected === null) return null;
  return balanceOf({
    openingL: volumeAtLevelL(tank, first.levelM),
    closingL: volumeAtLevelL(tank, last.levelM),
    deliveredL: facts.deliveries.filter(({ at }) => at > first.at && at <= last.at).reduce((sum, { volumeL }) => sum + volumeL, 0),
    expectedL: expected.litres,
    dipErrorL: Math.max(dipErrorL(tank, first), dipErrorL(tank, last)),
  });
}

function dipErrorL(tank: TankRow, { levelM, readingError }: { levelM: number; readingError: number | null }): number {
  const error = readingError ?? USUAL_DIP_ERROR_M;
  return (volumeAtLevelL(tank, levelM + error) - volumeAtLevelL(tank, levelM - error)) / 2;
}

function toStore(cover: Cover): Omit<CoverToStore, 'tankId' | 'expectedUseL' | 'observedUseL' | 'dataUsed'> {
  const { kind, reason } = cover;
  if (cover.kind === 'too-little-data') {
    const unknown = { lastDipAt: null, volumeL: null, strengthGL: null, dailyUseL: null, earlyDays: null, likelyDays: null, lateDays: null, runOutOn: null };
    return { kind, reason, ...unknown };
  }
  const { lastDipAt, volumeL, strengthGL, dailyUseL, earlyDays, likelyDays, lateDays, runOutOn } = cover;
  return { kind, reason, lastDipAt, volumeL, strengthGL, dailyUseL, earlyDays, likelyDays, lateDays, runOutOn };
}
