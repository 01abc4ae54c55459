import { Module } from '@nestjs/common';
import { ConditionModule } from '../condition/index.js';
import { IntakeModule } from '../intake/index.js';
import { DueList } from './due-list.js';
import { DueListRepository } from './due-list.repository.js';
import { RecomputeDues } from './recompute-dues.js';
import { Rules } from './rules.js';
import { RulesRepository } from './rules.repository.js';
import { UpkeepController } from './upkeep.controller.js';
import { UpkeepRepository } from './upkeep.repository.js';

@Module({
  imports: [IntakeModule, ConditionModule],
  controllers: [UpkeepController],
  providers: [DueList, DueListRepository, Rules, RulesRepository, RecomputeDues, UpkeepRepository],
})
export class UpkeepModule {}
