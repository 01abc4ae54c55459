import { Injectable } from '@nestjs/common';
import { localDays } from '../condition/core/local-day.js';
import { IntakeFacts, type TankFacts } from '../intake/index.js';
import { type Day, dayPlus } from '../shared/day.js';
import type { TankConsumer } from './core/needs.js';
import type { StrengthAssay } from './core/strength-record.js';
import { type CleanedRow, type ConsumerRow, CoverRepository, type FilteredRow, type TankRow } from './cover.repository.js';

/** Everything that is known of a tank and of those who draw from it. */
export interface TankSituation {
  readonly tank: TankRow;
  readonly facts: TankFacts;
  readonly assays: readonly StrengthAssay[];
  /** Who draws from the tank itself */
  readonly consumers: readonly TankConsumer[];
  /** Who draws from the day tanks that are filled from it */
  readonly beyond: readonly TankConsumer[];
  /** The first day of which use is known to the books */
  readonly since: Day;
  readonly now: Date;
}

/** Reads what cover and books of tanks are reckoned from, in a number of queries that does not grow with the tanks. */
@Injectable()
export class TankSituations {
  constructor(
    private readonly repository: CoverRepository,
    private readonly intake: IntakeFacts,
  ) {}

  async ofSkid(skidId: string, days: number, now: Date): Promise<TankSituation[]> {
    return this.of(await this.repository.tanksOfSkid(skidId), days, now);
  }

  async ofTank(tankId: string, days: number, now: Date): Promise<TankSituation | undefined> {
    return (await this.of(await this.repository.tanksById([tankId]), days, now))[0];
  }

  private async of(tanks: readonly TankRow[], days: number, now: Date): Promise<TankSituation[]> {
    const [first] = tanks;
    if (first === undefined) return []; // all tanks of a skid, and those that it draws from, stand at its site
    const { timeZone } = first;
    const ids = tanks.map(({ id }) => id);
    const dayTanks = await this.repository.dayTanksOf(ids);
    const since = dayPlus(localDays(timeZone)(now.getTime()).day, -days);
    const [facts, assays, drawers] = await Promise.all([
      this.intake.tankFactsOf(ids),
      this.repository.assaysOf(ids),
      this.repository.consumersOf([...ids, ...dayTanks.map(({ id }) => id)]),
    ]);
    const skids = drawers.filter(({ skidId }) => skidId !== null);
    const [filtered, cleaned] = await Promise.all([
      this.repository.filteredBy([...new Set(skids.flatMap(({ skidNo }) => skidNo ?? []))], since),
      this.repository.cleanedBy([...new Set(skids.flatMap(({ skidId }) => skidId ?? []))], timeZone, since),
    ]);
    return tanks.map((tank, at) => {
      const consumersOf = (tankIds: readonly string[]) =>
        drawers.filter(({ tankId }) => tankIds.includes(tankId)).map((drawer) => toConsumer(drawer, tank.chemical, filtered, cleaned));
      return {
        tank,
        facts: facts[at] ?? { tankId: tank.id, dips: [], deliveries: [], passedOn: [] },
        assays: assays.filter(({ tankId }) => tankId === tank.id),
        consumers: consumersOf([tank.id]),
        beyond: consumersOf(dayTanks.filter(({ fedFromId }) => fedFromId === tank.id).map(({ id }) => id)),
        since,
        now,
      };
    });
  }
}

function toConsumer(row: ConsumerRow, chemical: string, filtered: readonly FilteredRow[], cleaned: readonly CleanedRow[]): TankConsumer {
  const { name, skidId, skidNo, doseMgL, litresPerCeb, litresPerCip, litresPerDay, sdPerDay } = row;
  const days = new Map<Day, { filtrateM3: number; cebs: number; cips: number }>();
  for (const { skidNo: no, day, m3 } of filtered) if (no === skidNo) days.set(day, { filtrateM3: m3, cebs: 0, cips: 0 });
  for (const { skidId: id, day, chemical: with_, cebs, cips } of cleaned) {
    if (id === skidId && with_ === chemical.toLowerCase()) days.set(day, { filtrateM3: days.get(day)?.filtrateM3 ?? 0, cebs, cips });
  }
  const known = [...days].map(([day, use]) => ({ day, ...use })).sort((a, b) => (a.day < b.day ? -1 : 1));
  return { name, recipe: { doseMgL, litresPerCeb, litresPerCip }, days: known, litresPerDay, sdPerDay };
}
