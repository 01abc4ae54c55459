import { type DynamicModule, Module } from '@nestjs/common';
import { APP_GUARD } from '@nestjs/core';
import { AppFoundationModule } from './app/app-foundation.module.js';
import { CallerGuard } from './app/identity/caller.guard.js';
import { IntakeModule } from './intake/index.js';
import { PeopleModule } from './people/index.js';

export interface AppOptions {
  readonly databaseUrl: string;
  /** Whether this process takes work from the queue */
  readonly backgroundWork: boolean;
}

@Module({})
export class AppModule {
  static with(options: AppOptions): DynamicModule {
    return {
      module: AppModule,
      imports: [AppFoundationModule.with(options), PeopleModule, IntakeModule],
      providers: [{ provide: APP_GUARD, useClass: CallerGuard }],
    };
  }
}
