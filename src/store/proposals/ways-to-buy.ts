import { Injectable } from '@nestjs/common';
import type { Reader } from '../../app/index.js';
import { type ItemLeadTime, LeadTimes } from '../orders/lead-times.js';
import { type ItemOffer, offersOfItems } from '../orders/offered-items.repository.js';
import { type SupplierTerms, supplierTerms } from './ways-to-buy.repository.js';

/** From whom an item is bought first, in which packs, and how long it takes to come. */
export interface Way {
  readonly offer: ItemOffer;
  readonly supplier: SupplierTerms;
  readonly leadTime: ItemLeadTime['leadTime'];
}

@Injectable()
export class WaysToBuy {
  constructor(private readonly leadTimes: LeadTimes) {}

  /** Four statements, whatever is asked for. */
  async ofItems(reader: Reader, itemIds: readonly string[], now: Date): Promise<Map<string, Way>> {
    const [terms, offers, times] = await Promise.all([
      supplierTerms(reader),
      offersOfItems(reader, null, itemIds, now),
      this.leadTimes.ofItems(reader, itemIds),
    ]);
    const suppliers = new Map(terms.map((one) => [one.id, one]));
    const ways = new Map<string, Way>();
    for (const [itemId, { offer }] of offers) {
      const [supplier, time] = [suppliers.get(offer?.supplierId ?? ''), times.get(itemId)];
      if (offer !== null && supplier !== undefined && time !== undefined) ways.set(itemId, { offer, supplier, leadTime: time.leadTime });
    }
    return ways;
  }
}
