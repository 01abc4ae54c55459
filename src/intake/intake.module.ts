import { Module } from '@nestjs/common';
import { EnterHandReadings } from './enter-hand-readings.js';
import { HandController } from './hand.controller.js';
import { HandSheet } from './hand-sheet.js';
import { Loading } from './loading.js';
import { IntakeFacts } from './repositories/facts.repository.js';
import { HandSheetRepository } from './repositories/hand-sheet.repository.js';
import { LoadsRepository } from './repositories/loads.repository.js';
import { RecordStore } from './repositories/record-store.repository.js';
import { SkidsRepository } from './repositories/skids.repository.js';
import { Transactions } from './repositories/transactions.repository.js';
import { SkidAccess } from './skid-access.js';
import { StoreHandFacts } from './store-hand-facts.js';

@Module({
  controllers: [HandController],
  providers: [
    EnterHandReadings,
    HandSheet,
    HandSheetRepository,
    IntakeFacts,
    Loading,
    LoadsRepository,
    RecordStore,
    SkidAccess,
    SkidsRepository,
    StoreHandFacts,
    Transactions,
  ],
  exports: [IntakeFacts],
})
export class IntakeModule {}
