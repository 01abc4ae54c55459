import { Injectable } from '@nestjs/common';
import { Clock, type Reader } from '../../app/index.js';
import { type LeadTime, leadTimesAlike } from '../core/orders/lead-time.js';
import { type OfferTerms, offerTerms, type SeenLine, seenLines } from './lead-times.repository.js';

export interface ItemLeadTime extends OfferTerms {
  readonly leadTime: LeadTime;
}

/** How long items take to come, as it was learnt. Two statements, whatever is asked for. */
@Injectable()
export class LeadTimes {
  constructor(private readonly clock: Clock) {}

  /** Of each item, from the supplier that is asked first; an item that nobody sells is not among them. */
  async ofItems(reader: Reader, itemIds: readonly string[]): Promise<Map<string, ItemLeadTime>> {
    const first = new Map<string, ItemLeadTime>();
    for (const one of await this.ofOffers(reader, itemIds)) if (!first.has(one.itemId)) first.set(one.itemId, one);
    return first;
  }

  /** Of each item from each supplier that offers it, the one that is asked first first. */
  async ofOffers(reader: Reader, itemIds: readonly string[]): Promise<ItemLeadTime[]> {
    return this.learn(reader, await offerTerms(reader, itemIds));
  }

  /** Of orders as they are sent, whether or not the items are still offered. */
  async learn(reader: Reader, terms: readonly OfferTerms[]): Promise<ItemLeadTime[]> {
    const suppliers = [...new Set(terms.map(({ supplierId }) => supplierId))];
    const bySupplier = grouped(await seenLines(reader, suppliers, this.clock.now()));
    const learning = new Map<string, (itemId: string) => LeadTime>();
    return terms.map((one) => {
      const seen = bySupplier.get(one.supplierId) ?? [];
      const key = `${one.supplierId} ${one.statedDays}`;
      const leadTimeOf = learning.get(key) ?? leadTimesAlike(one.statedDays, seen);
      learning.set(key, leadTimeOf);
      return { ...one, leadTime: leadTimeOf(one.itemId) };
    });
  }
}

function grouped(lines: readonly SeenLine[]): Map<string, SeenLine[]> {
  const bySupplier = new Map<string, SeenLine[]>();
  for (const line of lines) {
    const known = bySupplier.get(line.supplierId);
    if (known === undefined) bySupplier.set(line.supplierId, [line]);
    else known.push(line);
  }
  return bySupplier;
}
