import { type DynamicModule, Global, Module } from '@nestjs/common';
import { BackgroundWork } from './background/background-work.js';
import { Recompute } from './background/recompute.js';
import { Clock } from './clock/clock.js';
import { DatabaseModule } from './database/database.module.js';
import { HealthController } from './health/health.controller.js';
import { KeyedWork } from './idempotency/keyed-work.js';

/** What all stages share. */
@Global()
@Module({})
export class AppFoundationModule {
  static with(options: { databaseUrl: string; backgroundWork: boolean }): DynamicModule {
    return {
      module: AppFoundationModule,
      imports: [DatabaseModule.forUrl(options.databaseUrl)],
      controllers: [HealthController],
      providers: [Clock, Recompute, KeyedWork, { provide: BackgroundWork, useValue: new BackgroundWork(options.backgroundWork) }],
      exports: [Clock, Recompute, KeyedWork, DatabaseModule],
    };
  }
}
