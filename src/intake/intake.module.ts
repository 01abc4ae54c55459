import { Module } from '@nestjs/common';
import { EnterEvents } from './enter-events.js';
import { EnterHandReadings } from './enter-hand-readings.js';
import { EventsController } from './events.controller.js';
import { HandController } from './hand.controller.js';
import { HandSheet } from './hand-sheet.js';
import { Loading } from './loading.js';
import { IntakeFacts } from './repositories/facts.repository.js';
import { FittingsRepository } from './repositories/fittings.repository.js';
import { HandSheetRepository } from './repositories/hand-sheet.repository.js';
import { LoadsRepository } from './repositories/loads.repository.js';
import { RecordStore } from './repositories/record-store.repository.js';
import { ServiceLogRepository } from './repositories/service-log.repository.js';
import { SkidsRepository } from './repositories/skids.repository.js';
import { Transactions } from './repositories/transactions.repository.js';
import { ServiceLog } from './service-log.js';
import { SkidAccess } from './skid-access.js';
import { StoreEvents } from './store-events.js';
import { StoreHandFacts } from './store-hand-facts.js';

@Module({
  controllers: [EventsController, HandController],
  providers: [
    EnterEvents,
    EnterHandReadings,
    FittingsRepository,
    HandSheet,
    HandSheetRepository,
    IntakeFacts,
    Loading,
    LoadsRepository,
    RecordStore,
    ServiceLog,
    ServiceLogRepository,
    SkidAccess,
    SkidsRepository,
    StoreEvents,
    StoreHandFacts,
    Transactions,
  ],
  exports: [IntakeFacts],
})
export class IntakeModule {}
