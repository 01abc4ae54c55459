import { Injectable } from '@nestjs/common';
import { type Caller, Clock, Conflict, Database, faultIn, viewOf } from '../../app/index.js';
import { dateOf, dayOf } from '../../registry/index.js';
import { type CurrencyRateDto, CurrencyRatesView, CurrencyRateView, type StoreSettingsDto, StoreSettingsView } from './settings.dto.js';
import { allRates, editSettings, enterRate, type RateRow, readSettings, type SettingsRow } from './settings.repository.js';

/** What the store reckons by, and what other currencies are worth. */
@Injectable()
export class StoreSettings {
  constructor(
    private readonly database: Database,
    private readonly clock: Clock,
  ) {}

  async read(): Promise<StoreSettingsView> {
    return toView(await readSettings(this.database.prisma));
  }

  edit(version: number, { reckoningCurrency, managerApprovesAbove = null }: StoreSettingsDto): Promise<StoreSettingsView> {
    return this.database.write(async (tx) => {
      const before = await readSettings(tx);
      const rates = before.reckoningCurrency === reckoningCurrency ? [] : await allRates(tx);
      if (rates.length > 0) {
        throw new Conflict(`Rates are entered in ${before.reckoningCurrency}, and costs were reckoned with them: the reckoning currency stays`);
      }
      return toView(await editSettings(tx, version, { reckoningCurrency, managerApprovesAbove }));
    });
  }

  async rates(): Promise<CurrencyRatesView> {
    return viewOf(CurrencyRatesView, { items: (await allRates(this.database.prisma)).map(toRateView) });
  }

  enterRate(caller: Caller, { currency, fromDay, rate }: CurrencyRateDto): Promise<CurrencyRateView> {
    return this.database.write(async (tx) => {
      const { reckoningCurrency } = await readSettings(tx);
      if (currency === reckoningCurrency) throw faultIn('currency', `costs are reckoned in ${currency}: its rate is always 1`);
      return toRateView(await enterRate(tx, { currency, fromDay: dateOf(fromDay), rate, by: caller.name, at: this.clock.now() }));
    });
  }
}

const toView = ({ reckoningCurrency, managerApprovesAbove, version }: SettingsRow): StoreSettingsView =>
  viewOf(StoreSettingsView, { reckoningCurrency, managerApprovesAbove: managerApprovesAbove?.toFixed() ?? null, version });

const toRateView = ({ currency, fromDay, rate, by, at }: RateRow): CurrencyRateView =>
  viewOf(CurrencyRateView, { currency, fromDay: dayOf(fromDay), rate: rate.toFixed(), by, at });
