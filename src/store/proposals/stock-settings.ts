import { Injectable } from '@nestjs/common';
import { type Caller, Clock, Database, faultIn, NotFound, viewOf } from '../../app/index.js';
import { settingProblem } from '../core/proposals/setting-problem.js';
import { RecomputeReorder } from './recompute-reorder.js';
import type { SiteSupplyDto, StockSettingDto } from './reorder.dto.js';
import { SiteSupplyView, StockSettingView } from './reorder-views.dto.js';
import { keepSetting, keepSiteSupply, knownOf, type SettingRow, stockSettings } from './settings.repository.js';

/** How items are kept at places, as people said. */
@Injectable()
export class StockSettings {
  constructor(
    private readonly database: Database,
    private readonly recompute: RecomputeReorder,
    private readonly clock: Clock,
  ) {}

  async read(itemId: string, placeId: string): Promise<StockSettingView> {
    const { prisma } = this.database;
    checkKnown(await knownOf(prisma, { itemId, placeId }), itemId, placeId);
    const row = (await stockSettings(prisma, [itemId])).find((setting) => setting.placeId === placeId);
    return settingView(itemId, placeId, row ?? null);
  }

  async keep(caller: Caller, itemId: string, placeId: string, version: number, input: StockSettingDto): Promise<StockSettingView> {
    const { service = null, asked = null, shortCost = null, reviewDays = null, minimum = null, maximum = null, criticality = null, note = '' } = input;
    const problem = settingProblem({ service, asked, shortCost, minimum, maximum });
    if (problem !== null) throw faultIn(problem.field, problem.message);
    await this.database.write(async (tx) => {
      checkKnown(await knownOf(tx, { itemId, placeId }), itemId, placeId);
      const said = { itemId, placeId, service, asked, shortCost, reviewDays, minimum, maximum, criticality, note };
      await keepSetting(tx, { ...said, by: caller.name, at: this.clock.now() }, version);
    });
    await this.recompute.ofItems([itemId]);
    return this.read(itemId, placeId);
  }

  /** Which store the work at a site is supplied from: the whole list is made again by it. */
  async supplySite(siteId: string, { placeId = null }: SiteSupplyDto): Promise<SiteSupplyView> {
    await this.database.write(async (tx) => {
      const known = await knownOf(tx, { siteId, placeId });
      if (!known.site) throw new NotFound('site', siteId);
      if (placeId !== null && !known.store) throw faultIn('placeId', 'must be a store that has not ended');
      await keepSiteSupply(tx, siteId, placeId);
    });
    await this.recompute.later();
    return viewOf(SiteSupplyView, { siteId, placeId });
  }
}

function checkKnown(known: { item: boolean; place: boolean }, itemId: string, placeId: string): void {
  if (!known.item) throw new NotFound('item', itemId);
  if (!known.place) throw new NotFound('place that stock is kept at', placeId);
}

export function settingView(itemId: string, placeId: string, row: SettingRow | null): StockSettingView {
  const usual = {
    service: null,
    asked: null,
    shortCost: null,
    reviewDays: null,
    minimum: null,
    maximum: null,
    criticality: null,
    note: '',
    by: null,
    at: null,
  };
  return viewOf(StockSettingView, row ?? { itemId, placeId, ...usual, version: 0 });
}
