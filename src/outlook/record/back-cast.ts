import { Injectable, type OnModuleInit } from '@nestjs/common';
import { Clock, Queue, type SkidToRecompute } from '../../app/index.js';
import { type Day, dayPlus, daysBetween } from '../../shared/day.js';
import { asKnownOn } from '../core/skid/as-known-on.js';
import { outlooksOf } from '../core/skid/outlooks-of-skid.js';
import { OutlookRepository } from '../outlook.repository.js';
import { ScoreOutlooks } from './score-outlooks.js';

const BACK_CAST = 'back-cast-skid';
/** Before so many days of a record nothing is forecast. */
const LEAST_DAYS = 60;
const EVERY_DAYS = 7;
/** Further back the plant was another one. */
const MOST_DAYS = 730;

interface Entry {
  readonly id: string;
  readonly no: number;
  readonly clientId: string;
}

/**
 * Forecasts for the weeks of a record that was there before the service was: each from what had been measured until its day, so that people see from the first day how right forecasts are here. They are marked as
 * made afterwards, and never take the place of one that was made in its time.
 */
@Injectable()
export class BackCast implements OnModuleInit {
  /** Days for which nothing can be forecast: they are tried once by each process */
  private readonly tried = new Map<string, Set<Day>>();

  constructor(
    private readonly queue: Queue,
    private readonly repository: OutlookRepository,
    private readonly scores: ScoreOutlooks,
    private readonly clock: Clock,
  ) {}

  onModuleInit(): void {
    this.queue.add<Entry>({ name: BACK_CAST, retryLimit: 1, work: (skid) => this.now(skid) });
  }

  /** Asks for it, where a record has weeks without a forecast. */
  async later({ id, no, clientId }: SkidToRecompute, { firstDay, lastDay }: { firstDay: Day | undefined; lastDay: Day | undefined }): Promise<void> {
    if (firstDay === undefined || lastDay === undefined) return;
    const missing = await this.missing({ id, no }, firstDay, lastDay);
    if (missing.length > 0) await this.queue.send(BACK_CAST, { id, no, clientId }, { key: id });
  }

  async now(skid: Entry): Promise<void> {
    const facts = await this.repository.facts(skid.id);
    if (facts === undefined) return;
    const [days, cleans, sets] = await Promise.all([
      this.repository.days(skid.no),
      this.repository.recoveryCleanDays(skid.id, facts.timeZone),
      this.repository.cartridgeSets(skid.id, facts.timeZone),
    ]);
    const [first, last] = [days[0], days.at(-1)];
    if (first === undefined || last === undefined) return;
    const origins = await this.missing(skid, first.day, last.day);
    const tried = this.tried.get(skid.id) ?? new Set();
    this.tried.set(skid.id, tried);
    for (const origin of origins) {
      tried.add(origin);
      const then = asKnownOn(origin, facts, { days, cleans, sets });
      const outlooks = outlooksOf(then.known, new Date(`${origin}T12:00:00Z`), then.days, then.cleans, then.sets);
      await this.repository.storeAfterwards(
        skid,
        outlooks.map((outlook) => ({ ...outlook, originDay: origin })),
        this.clock.now(),
      );
    }
    await this.scores.ofSkid(skid, { days, sets, recoveryCleans: cleans });
  }

  private async missing({ id, no }: Pick<Entry, 'id' | 'no'>, firstDay: Day, lastDay: Day): Promise<Day[]> {
    const made = new Set([...(await this.repository.originDays(no)), ...(this.tried.get(id) ?? [])]);
    return originsWithout(firstDay, lastDay, made);
  }
}

/** One day a week of a record, back from its end, for which there is no forecast within the week. */
function originsWithout(firstDay: Day, lastDay: Day, made: ReadonlySet<Day>): Day[] {
  const weeks = Math.floor(Math.min(MOST_DAYS, daysBetween(firstDay, lastDay) - LEAST_DAYS) / EVERY_DAYS);
  const origins = Array.from({ length: Math.max(0, weeks) }, (_, at) => dayPlus(lastDay, -EVERY_DAYS * (at + 1)));
  return origins.filter((origin) => !Array.from({ length: EVERY_DAYS }, (_, at) => dayPlus(origin, at)).some((day) => made.has(day)));
}
