import { Body, Controller, Get, Param, ParseUUIDPipe, Put, UseInterceptors } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import { Allow, type Caller, CurrentCaller, EtagInterceptor, TakesVersion, VersionSeen } from '../../app/index.js';
import { SitePricesDto, type SitePricesView } from './site-prices.dto.js';
import { SitePrices } from './site-prices.js';

@ApiTags('sites')
@Controller('sites/:siteId/prices')
@UseInterceptors(EtagInterceptor)
export class SitePricesController {
  constructor(private readonly prices: SitePrices) {}

  /** What waiting is weighed by at the site */
  @Get()
  @Allow('manager', 'storekeeper', 'technician')
  read(@Param('siteId', ParseUUIDPipe) siteId: string): Promise<SitePricesView> {
    return this.prices.read(siteId);
  }

  /** What is left out is not known */
  @Put()
  @Allow('manager')
  @TakesVersion()
  edit(
    @CurrentCaller() caller: Caller,
    @Param('siteId', ParseUUIDPipe) siteId: string,
    @VersionSeen() version: number,
    @Body() input: SitePricesDto,
  ): Promise<SitePricesView> {
    return this.prices.edit(caller, siteId, version, input);
  }
}
