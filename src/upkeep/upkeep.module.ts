import { Module } from '@nestjs/common';
import { ConditionModule } from '../condition/index.js';
import { IntakeModule } from '../intake/index.js';
import { DueList } from './due-list.js';
import { DueListRepository } from './due-list.repository.js';
import { DueReader } from './due-reader.js';
import { DuesRepository } from './dues.repository.js';
import { RecomputeDues } from './recompute-dues.js';
import { Rules } from './rules.js';
import { RulesRepository } from './rules.repository.js';
import { TaskSheetReader } from './task-sheet-reader.js';
import { UpkeepController } from './upkeep.controller.js';
import { UpkeepRepository } from './upkeep.repository.js';
import { UpkeepFacts } from './upkeep-facts.js';

@Module({
  imports: [IntakeModule, ConditionModule],
  controllers: [UpkeepController],
  providers: [DueList, DueListRepository, DueReader, TaskSheetReader, Rules, RulesRepository, RecomputeDues, UpkeepFacts, UpkeepRepository, DuesRepository],
  exports: [DueReader, TaskSheetReader],
})
export class UpkeepModule {}
