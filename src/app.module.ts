import { type DynamicModule, Module } from '@nestjs/common';
import { APP_GUARD } from '@nestjs/core';
import { AppFoundationModule, type FoundationOptions } from './app/app-foundation.module.js';
import { CallerGuard } from './app/identity/caller.guard.js';
import { AttachmentsModule } from './attachments/index.js';
import { ChemicalsModule } from './chemicals/index.js';
import { ConditionModule } from './condition/index.js';
import { InstrumentsModule } from './instruments/index.js';
import { IntakeModule } from './intake/index.js';
import { IntegrityModule } from './integrity/index.js';
import { JobsModule } from './jobs/index.js';
import { NoticesModule } from './notices/index.js';
import { OutlookModule } from './outlook/index.js';
import { PeopleModule } from './people/index.js';
import { PortalModule } from './portal/index.js';
import { RegistryModule } from './registry/index.js';
import { ReportsModule } from './reports/index.js';
import { OrdersModule, ProposalsModule, StoreModule, SupplyModule } from './store/index.js';
import { UpkeepModule } from './upkeep/index.js';
import { VisitsModule } from './visits/index.js';

@Module({})
export class AppModule {
  static with(options: FoundationOptions): DynamicModule {
    return {
      module: AppModule,
      imports: [
        AppFoundationModule.with(options),
        PeopleModule,
        RegistryModule,
        IntakeModule,
        IntegrityModule,
        InstrumentsModule,
        ConditionModule,
        OutlookModule,
        UpkeepModule,
        StoreModule,
        SupplyModule,
        OrdersModule,
        ProposalsModule,
        ChemicalsModule,
        JobsModule,
        VisitsModule,
        AttachmentsModule,
        ReportsModule,
        NoticesModule,
        PortalModule,
      ],
      providers: [{ provide: APP_GUARD, useClass: CallerGuard }],
    };
  }
}
