import { Module } from '@nestjs/common';
import { ConditionModule } from '../condition/index.js';
import { IntakeModule } from '../intake/index.js';
import { DueList } from './due-list.js';
import { DueListRepository } from './due-list.repository.js';
import { DueReader } from './due-reader.js';
import { DuesRepository } from './dues.repository.js';
import { FollowRules } from './follow-rules.js';
import { LoadAhead } from './load-ahead.js';
import { LoadAheadRepository } from './load-ahead.repository.js';
import { LoadLibrary } from './load-library.js';
import { RecomputeDues } from './recompute-dues.js';
import { RuleSetVersions } from './rule-set-versions.js';
import { RuleSetsController } from './rule-sets.controller.js';
import { RuleSets } from './rule-sets.js';
import { RulesController } from './rules.controller.js';
import { Rules } from './rules.js';
import { SheetSuggestions } from './sheet-suggestions.js';
import { SkidRules } from './skid-rules.js';
import { TaskSheetReader } from './task-sheet-reader.js';
import { TaskSheetsController } from './task-sheets.controller.js';
import { TaskSheets } from './task-sheets.js';
import { UpkeepController } from './upkeep.controller.js';
import { UpkeepRepository } from './upkeep.repository.js';
import { UpkeepFacts } from './upkeep-facts.js';

@Module({
  imports: [IntakeModule, ConditionModule],
  controllers: [UpkeepController, RuleSetsController, RulesController, TaskSheetsController],
  providers: [
    DueList,
    DueListRepository,
    DueReader,
    DuesRepository,
    FollowRules,
    LoadAhead,
    LoadAheadRepository,
    LoadLibrary,
    RecomputeDues,
    RuleSets,
    RuleSetVersions,
    Rules,
    SheetSuggestions,
    SkidRules,
    TaskSheetReader,
    TaskSheets,
    UpkeepFacts,
    UpkeepRepository,
  ],
  exports: [DueReader, TaskSheetReader],
})
export class UpkeepModule {}
