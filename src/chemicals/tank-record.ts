import { localDays } from '../condition/core/local-day.js';
import { type Day, dayPlus, daysBetween } from '../shared/day.js';
import { chemicalClass } from '../shared/incompatibility.js';
import { type BalanceSaid, balanceSaid } from './core/books/balance-words.js';
import { type BookedDip, type Books, tankBooks } from './core/books/tank-books.js';
import { type DayShare, neededOver, needsOf, type TankNeeds } from './core/needs.js';
import { strengthRecord } from './core/strength-record.js';
import { volumeAtLevelL } from './core/tank-volume.js';
import type { TankSituation } from './tank-situations.js';

const USUAL_DIP_ERROR_M = 0.01;
export const USUAL_STORAGE_C = 20;

/** What the facts of a tank come to: its strength at any moment, what was asked of it by day, its books and what they mean. */
export interface TankRecord {
  readonly losesStrength: boolean;
  readonly storageC: number;
  readonly strengthAt: (at: Date) => number | null;
  readonly dips: readonly { readonly at: Date; readonly levelM: number; readonly volumeL: number; readonly errorL: number }[];
  /** Of those who draw from the tank itself; `null` where a strength is not known */
  readonly needs: TankNeeds | null;
  readonly books: Books;
  readonly said: BalanceSaid;
  readonly today: Day;
  readonly dayOf: (at: Date) => Day;
}

export function tankRecord({ tank, facts, assays, consumers, since, now }: TankSituation): TankRecord {
  const losesStrength = chemicalClass(tank.chemical) === 'hypochlorite';
  const storageC = tank.storageC ?? USUAL_STORAGE_C;
  const local = localDays(tank.timeZone);
  const dayOf = (at: Date) => local(at.getTime()).day;
  const today = dayOf(now);
  const dips = facts.dips.map((dip) => ({ ...dip, volumeL: volumeAtLevelL(tank, dip.levelM), errorL: dipErrorL(tank, dip) }));
  const aging = strengthRecord(dips, facts.deliveries, { usualGL: tank.strengthGL ?? 0, storageC, assays });
  const strengthAt = (at: Date) => (tank.strengthGL === null ? null : losesStrength ? aging(at) : (measuredBy(assays, at) ?? tank.strengthGL));
  const days = Array.from({ length: Math.max(0, daysBetween(since, today)) }, (_, at) => dayPlus(since, at));
  const needs = needsOf(consumers, days, (day) => strengthAt(new Date(`${day}T12:00:00Z`)));
  const booked = dips.filter(({ at }) => dayOf(at) >= since);
  const books = tankBooks(booked.map((dip, at) => toBooked(dip, booked[at - 1]?.at, facts, needs, local)));
  const latest = assays.at(-1);
  const reckoned = latest === undefined ? null : strengthBefore(latest.at);
  const said = balanceSaid({
    books,
    expectedLDay: averageOf(needs),
    consumers: needs?.consumers.filter(({ litresPerDay }) => litresPerDay > 0).map(({ name }) => name) ?? [],
    assay: latest === undefined || reckoned === null ? null : { at: latest.at, measuredGL: latest.strengthGL, reckonedGL: reckoned },
    today,
    dayOf,
  });
  return { losesStrength, storageC, strengthAt, dips, needs, books, said, today, dayOf };

  /** What was reckoned for a moment without the assay taken then */
  function strengthBefore(at: Date): number | null {
    if (tank.strengthGL === null) return null;
    const before = assays.filter((assay) => assay.at < at);
    return losesStrength
      ? strengthRecord(dips, facts.deliveries, { usualGL: tank.strengthGL, storageC, assays: before })(at)
      : (measuredBy(before, at) ?? tank.strengthGL);
  }
}

function toBooked(
  { at, volumeL, errorL }: { at: Date; volumeL: number; errorL: number },
  before: Date | undefined,
  { deliveries, passedOn }: TankSituation['facts'],
  needs: TankNeeds | null,
  local: ReturnType<typeof localDays>,
): BookedDip {
  if (before === undefined) return { at, volumeL, errorL, broughtL: 0, expectedL: null };
  const expectedL = needs === null ? null : neededOver(needs.byDay, daysOver(before, at, local));
  return { at, volumeL, errorL, broughtL: litresBetween(deliveries, before, at) - litresBetween(passedOn, before, at), expectedL };
}

export function litresBetween(list: readonly { readonly at: Date; readonly volumeL: number }[], from: Date, to: Date): number {
  return list.filter(({ at }) => at > from && at <= to).reduce((sum, { volumeL }) => sum + volumeL, 0);
}

/** The days of the site between two moments, each with the share of it that lies between them. */
export function daysOver(from: Date, to: Date, local: ReturnType<typeof localDays>): DayShare[] {
  const span: DayShare[] = [];
  for (let atMs = from.getTime(); atMs < to.getTime(); ) {
    const { day, fromMs, toMs } = local(atMs);
    const untilMs = Math.min(toMs, to.getTime());
    span.push({ day, share: (untilMs - atMs) / (toMs - fromMs) });
    atMs = untilMs;
  }
  return span;
}

function averageOf(needs: TankNeeds | null): number | null {
  if (needs === null || needs.byDay.size === 0) return null;
  return [...needs.byDay.values()].reduce((sum, litres) => sum + litres, 0) / needs.byDay.size;
}

function measuredBy(assays: TankSituation['assays'], at: Date): number | undefined {
  return assays.findLast((assay) => assay.at <= at)?.strengthGL;
}

function dipErrorL(tank: TankSituation['tank'], { levelM, readingError }: { levelM: number; readingError: number | null }): number {
  const error = readingError ?? USUAL_DIP_ERROR_M;
  return (volumeAtLevelL(tank, levelM + error) - volumeAtLevelL(tank, levelM - error)) / 2;
}
