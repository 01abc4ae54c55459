import { type DynamicModule, Global, Module } from '@nestjs/common';
import { BackgroundWork } from './background/background-work.js';
import { Queue } from './background/queue.js';
import { Recompute } from './background/recompute.js';
import { Clock } from './clock/clock.js';
import { DatabaseModule } from './database/database.module.js';
import { HealthController } from './health/health.controller.js';
import { KeyedWork } from './idempotency/keyed-work.js';
import { ServiceSettings } from './service-settings.js';
import type { MailServer } from './settings.js';

export interface FoundationOptions {
  readonly databaseUrl: string;
  /** Whether this process takes work from the queue */
  readonly backgroundWork: boolean;
  readonly publicUrl?: string | undefined;
  readonly mail?: MailServer | undefined;
  readonly travelTableUrl?: string | undefined;
}

/** What all stages share. */
@Global()
@Module({})
export class AppFoundationModule {
  static with(options: FoundationOptions): DynamicModule {
    return {
      module: AppFoundationModule,
      imports: [DatabaseModule.forUrl(options.databaseUrl)],
      controllers: [HealthController],
      providers: [
        Clock,
        Queue,
        Recompute,
        KeyedWork,
        { provide: BackgroundWork, useValue: new BackgroundWork(options.backgroundWork) },
        { provide: ServiceSettings, useValue: new ServiceSettings(options.publicUrl, options.mail, options.travelTableUrl) },
      ],
      exports: [Clock, Queue, Recompute, KeyedWork, ServiceSettings, DatabaseModule],
    };
  }
}
