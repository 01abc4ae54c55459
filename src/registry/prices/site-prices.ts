import { Injectable } from '@nestjs/common';
import { type Caller, Clock, Database, NotFound, viewOf } from '../../app/index.js';
import { type SitePricesDto, SitePricesView } from './site-prices.dto.js';
import { editSitePrices, readSitePrices, reckoningCurrency, type SitePriceRow } from './site-prices.repository.js';

/** What waiting is weighed by at a site. */
@Injectable()
export class SitePrices {
  constructor(
    private readonly database: Database,
    private readonly clock: Clock,
  ) {}

  async read(siteId: string): Promise<SitePricesView> {
    const { prisma } = this.database;
    const site = await readSitePrices(prisma, siteId);
    if (site === null) throw new NotFound('site', siteId);
    return toView(site.price, await reckoningCurrency(prisma));
  }

  edit(caller: Caller, siteId: string, version: number, input: SitePricesDto): Promise<SitePricesView> {
    return this.database.write(async (tx) => {
      if ((await readSitePrices(tx, siteId)) === null) throw new NotFound('site', siteId);
      const { unplanned = null, recoveryClean = null, energyKwh = null, waterM3 = null, lostShare = null } = input;
      const columns = { unplanned, recoveryClean, energyKwh, waterM3, lostShare, by: caller.name, at: this.clock.now() };
      return toView(await editSitePrices(tx, siteId, version, columns), await reckoningCurrency(tx));
    });
  }
}

function toView(row: SitePriceRow | null, currency: string): SitePricesView {
  return viewOf(SitePricesView, {
    currency,
    unplanned: row?.unplanned?.toFixed() ?? null,
    recoveryClean: row?.recoveryClean?.toFixed() ?? null,
    energyKwh: row?.energyKwh?.toFixed() ?? null,
    waterM3: row?.waterM3?.toFixed() ?? null,
    lostShare: row?.lostShare ?? null,
    version: row?.version ?? 0,
  });
}
