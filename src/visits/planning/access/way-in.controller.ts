import { Controller, Get, Param, ParseUUIDPipe } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import { Allow, Database, NotFound } from '../../../app/index.js';
import { planningOfVisit } from '../planning-data.repository.js';
import type { WayInView } from './access.dto.js';
import { wayInView } from './access.js';

@ApiTags('visits')
@Controller('visits/:id/way-in')
export class WayInController {
  constructor(private readonly database: Database) {}

  /** How people get into the site of the visit, and whom to call there */
  @Get()
  @Allow('manager', 'storekeeper', 'technician')
  async read(@Param('id', ParseUUIDPipe) id: string): Promise<WayInView> {
    const visit = await planningOfVisit(this.database.prisma, id);
    if (visit === null) throw new NotFound('visit', id);
    return wayInView(visit.site.planning);
  }
}
