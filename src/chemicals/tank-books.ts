import { Injectable } from '@nestjs/common';
import { type Caller, Clock, NotFound, viewOf } from '../app/index.js';
import { BookPointView, ConsumerView, DeliveredView, TankBooksView } from './chemicals.dto.js';
import { ChemicalsRepository } from './chemicals.repository.js';
import { tankRecord } from './tank-record.js';
import { TankSituations } from './tank-situations.js';

/** The page of a tank looks back a year. */
const SHOWN_DAYS = 400;

/** The books of a tank over the last year, with what they mean. */
@Injectable()
export class TankBooks {
  constructor(
    private readonly repository: ChemicalsRepository,
    private readonly situations: TankSituations,
    private readonly clock: Clock,
  ) {}

  async read(caller: Caller, tankId: string): Promise<TankBooksView> {
    const deliveries = await this.repository.deliveries(caller, tankId);
    const now = this.clock.now();
    const situation = deliveries === undefined ? undefined : await this.situations.ofTank(tankId, SHOWN_DAYS, now);
    if (deliveries === undefined || situation === undefined) throw new NotFound('tank', tankId);
    const { books, said, needs, strengthAt } = tankRecord(situation);
    return viewOf(TankBooksView, {
      state: said.state,
      words: said.words,
      driftLDay: said.driftLDay,
      strengthGL: situation.facts.dips.length === 0 ? null : strengthAt(now),
      points: books.points.map(({ surprise: _, ...point }) => viewOf(BookPointView, point)),
      consumers: (needs?.consumers ?? []).map((consumer) => viewOf(ConsumerView, consumer)),
      deliveries: deliveries.map((delivery) => viewOf(DeliveredView, delivery)),
    });
  }
}
