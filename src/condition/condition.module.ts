import { Module } from '@nestjs/common';
import { IntakeModule } from '../intake/index.js';
import { ConditionController } from './condition.controller.js';
import { ConditionRepository } from './condition.repository.js';
import { MachineLives } from './machine-lives.js';
import { MachinesRepository } from './machines.repository.js';
import { RecomputeCondition } from './recompute-condition.js';

@Module({
  imports: [IntakeModule],
  controllers: [ConditionController],
  providers: [ConditionRepository, MachinesRepository, MachineLives, RecomputeCondition],
  exports: [MachineLives],
})
export class ConditionModule {}
