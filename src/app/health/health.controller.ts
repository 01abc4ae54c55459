import { Controller, Get } from '@nestjs/common';
import { Database } from '../database/database.js';
import { viewOf } from '../errors/view.js';
import { AllowAnyone } from '../identity/allow.js';
import { HealthView } from './health.dto.js';

@Controller('health')
export class HealthController {
  constructor(private readonly database: Database) {}

  /** For watchdogs: the service answers, and reaches its database. */
  @Get()
  @AllowAnyone()
  async look(): Promise<HealthView> {
    await this.database.pool.query('SELECT 1');
    return viewOf(HealthView, { status: 'ok' });
  }
}
