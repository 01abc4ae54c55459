import { Body, Controller, Get, HttpCode, Param, ParseUUIDPipe, Post, Query } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import { Allow, type Caller, CurrentCaller, viewOf } from '../app/index.js';
import { GatewayKeyDto, GatewayKeysPageView, GatewayKeysQuery, type NewGatewayKeyView } from './gateway-keys.dto.js';
import { GatewayKeys } from './gateway-keys.js';

@ApiTags('gateway keys')
@Controller('gateway-keys')
@Allow('manager')
export class GatewayKeysController {
  constructor(private readonly keys: GatewayKeys) {}

  @Get()
  async list(@Query() query: GatewayKeysQuery): Promise<GatewayKeysPageView> {
    return viewOf(GatewayKeysPageView, await this.keys.list(query));
  }

  /** A key for one site, shown this once */
  @Post()
  create(@CurrentCaller() caller: Caller, @Body() input: GatewayKeyDto): Promise<NewGatewayKeyView> {
    return this.keys.create(caller, input);
  }

  /** Withdraws the key: from now on it opens nothing, and whoever uses it is told so */
  @Post(':id/end')
  @HttpCode(204)
  end(@CurrentCaller() caller: Caller, @Param('id', ParseUUIDPipe) id: string): Promise<void> {
    return this.keys.end(caller, id);
  }
}
