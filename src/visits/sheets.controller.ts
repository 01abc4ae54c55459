import { Controller, Get, Query } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import { Allow, type Caller, CurrentCaller } from '../app/index.js';
import { SheetsQuery, type SheetsView } from './sheets.dto.js';
import { Sheets } from './sheets.js';

@ApiTags('visits')
@Controller('sheets')
export class SheetsController {
  constructor(private readonly sheets: Sheets) {}

  /** Job sheets of the coming days, to be kept on the device: a technician’s own visits, a manager’s all */
  @Get()
  @Allow('manager', 'technician')
  read(@CurrentCaller() caller: Caller, @Query() { days }: SheetsQuery): Promise<SheetsView> {
    return this.sheets.read(caller, days);
  }
}
