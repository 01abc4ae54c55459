import { Module } from '@nestjs/common';
import { CartridgeFleet } from './cartridges/cartridge-fleet.js';
import { CloggingLivesRepository } from './cartridges/clogging-lives.repository.js';
import { Learner } from './learning/learner.js';
import { FleetLives } from './lives/fleet-lives.js';
import { LivesRepository } from './lives/lives.repository.js';
import { OutlooksOfParts } from './lives/outlooks-of-parts.js';
import { MembraneFleet } from './membranes/membrane-fleet.js';
import { MembraneRecordsRepository } from './membranes/membrane-records.repository.js';
import { ModuleFactsRepository } from './modules/module-facts.repository.js';
import { ModulesOfSkid } from './modules/modules-of-skid.js';
import { OutlookController } from './outlook.controller.js';
import { OutlookRepository } from './outlook.repository.js';
import { RecomputeOutlook } from './recompute-outlook.js';
import { BackCast } from './record/back-cast.js';
import { CalibrationRepository } from './record/calibration.repository.js';
import { Calibrations } from './record/calibrations.js';
import { Coming } from './record/coming.js';
import { ComingRepository } from './record/coming.repository.js';
import { OutlookRecord } from './record/outlook-record.js';
import { OutlooksController } from './record/outlooks.controller.js';
import { PastForecasts } from './record/past.js';
import { PastRepository } from './record/past.repository.js';
import { RecordRepository } from './record/record.repository.js';
import { ScoreRepository } from './record/score.repository.js';
import { ScoreOutlooks } from './record/score-outlooks.js';
import { TrendRepository } from './trend.repository.js';
import { Trends } from './trends.js';
import { WaitingController } from './waiting/waiting.controller.js';
import { Waiting } from './waiting/waiting.js';
import { WaitingRepository } from './waiting/waiting.repository.js';

@Module({
  controllers: [OutlookController, OutlooksController, WaitingController],
  providers: [
    BackCast,
    CalibrationRepository,
    Calibrations,
    CartridgeFleet,
    CloggingLivesRepository,
    Coming,
    ComingRepository,
    FleetLives,
    Learner,
    LivesRepository,
    MembraneFleet,
    MembraneRecordsRepository,
    ModuleFactsRepository,
    ModulesOfSkid,
    OutlooksOfParts,
    OutlookRecord,
    OutlookRepository,
    PastForecasts,
    PastRepository,
    RecomputeOutlook,
    RecordRepository,
    ScoreOutlooks,
    ScoreRepository,
    TrendRepository,
    Trends,
    Waiting,
    WaitingRepository,
  ],
  exports: [Trends, Waiting],
})
export class OutlookModule {}
