import { Module } from '@nestjs/common';
import { CycleRows } from './cycle-rows.js';
import { EnterEvents } from './enter-events.js';
import { EnterHandReadings } from './enter-hand-readings.js';
import { EventRows } from './event-rows.js';
import { EventsController } from './events.controller.js';
import { HandController } from './hand.controller.js';
import { HandSheet } from './hand-sheet.js';
import { LoadFile } from './load-file.js';
import { Loading } from './loading.js';
import { LoadsController } from './loads.controller.js';
import { Loads } from './loads.js';
import { LogProfilesController } from './log-profiles.controller.js';
import { LogProfiles } from './log-profiles.js';
import { RecordWork } from './record-work.js';
import { DerivedCycles } from './repositories/derived-cycles.repository.js';
import { IntakeFacts } from './repositories/facts.repository.js';
import { FittingsRepository } from './repositories/fittings.repository.js';
import { HandSheetRepository } from './repositories/hand-sheet.repository.js';
import { LoadsRepository } from './repositories/loads.repository.js';
import { LogProfilesRepository } from './repositories/log-profiles.repository.js';
import { RecordStore } from './repositories/record-store.repository.js';
import { ServiceLogRepository } from './repositories/service-log.repository.js';
import { SignalsRepository } from './repositories/signals.repository.js';
import { SkidsRepository } from './repositories/skids.repository.js';
import { StoredSamples } from './repositories/stored-samples.repository.js';
import { TakenBackRecords } from './repositories/taken-back-records.repository.js';
import { Transactions } from './repositories/transactions.repository.js';
import { RowsIntoStore } from './rows-into-store.js';
import { SampleRowsIntoStore } from './sample-rows-into-store.js';
import { ServiceLog } from './service-log.js';
import { SkidAccess } from './skid-access.js';
import { StoreEvents } from './store-events.js';
import { StoreHandFacts } from './store-hand-facts.js';

@Module({
  controllers: [EventsController, HandController, LoadsController, LogProfilesController],
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
    CycleRows,
    EventRows,
    LoadFile,
    Loads,
    LogProfiles,
    RowsIntoStore,
    SampleRowsIntoStore,
    DerivedCycles,
    LogProfilesRepository,
    SignalsRepository,
    StoredSamples,
    RecordWork,
    TakenBackRecords,
  ],
  exports: [EnterEvents, IntakeFacts, RecordWork, SkidAccess],
})
export class IntakeModule {}
