import { Body, Controller, Get, Put, UseInterceptors } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import { Allow, type Caller, CurrentCaller, EtagInterceptor, TakesVersion, VersionSeen } from '../../../app/index.js';
import { PlanRatesDto, type PlanRatesView } from './rates.dto.js';
import { Rates } from './rates.js';

@ApiTags('planning')
@Controller('planning/rates')
@UseInterceptors(EtagInterceptor)
@Allow('manager')
export class RatesController {
  constructor(private readonly rates: Rates) {}

  /** What an hour of work, of travel and of overtime, a kilometre and a night away cost */
  @Get()
  read(): Promise<PlanRatesView> {
    return this.rates.read();
  }

  /** Replaces the rates; all left out: costs of plans count in hours. Plans that are there keep theirs */
  @Put()
  @TakesVersion()
  edit(@CurrentCaller() caller: Caller, @VersionSeen() version: number, @Body() input: PlanRatesDto): Promise<PlanRatesView> {
    return this.rates.edit(caller, version, input);
  }
}
