import { Body, Controller, Get, HttpCode, Post, Put, UseInterceptors } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import { Allow, type Caller, CurrentCaller, EtagInterceptor, TakesVersion, VersionSeen } from '../../app/index.js';
import { CurrencyRateDto, type CurrencyRatesView, type CurrencyRateView, StoreSettingsDto, type StoreSettingsView } from './settings.dto.js';
import { StoreSettings } from './settings.js';

@ApiTags('suppliers')
@Controller()
@UseInterceptors(EtagInterceptor)
@Allow('manager', 'storekeeper')
export class StoreSettingsController {
  constructor(private readonly settings: StoreSettings) {}

  @Get('store-settings')
  read(): Promise<StoreSettingsView> {
    return this.settings.read();
  }

  @Put('store-settings')
  @Allow('manager')
  @TakesVersion()
  edit(@VersionSeen() version: number, @Body() input: StoreSettingsDto): Promise<StoreSettingsView> {
    return this.settings.edit(version, input);
  }

  /** What other currencies are worth, as it was entered */
  @Get('currency-rates')
  rates(): Promise<CurrencyRatesView> {
    return this.settings.rates();
  }

  /** Enters a rate from a day on; of the same day it takes the place of the one before. Orders that were sent keep theirs */
  @Post('currency-rates')
  @HttpCode(200)
  enterRate(@CurrentCaller() caller: Caller, @Body() input: CurrencyRateDto): Promise<CurrencyRateView> {
    return this.settings.enterRate(caller, input);
  }
}
