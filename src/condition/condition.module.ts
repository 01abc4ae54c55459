import { Module } from '@nestjs/common';
import { IntakeModule } from '../intake/index.js';
import { ConditionController } from './condition.controller.js';
import { ConditionRepository } from './condition.repository.js';
import { FiltrationTime } from './fouling/filtration-time.js';
import { FoulingController } from './fouling/fouling.controller.js';
import { Fouling } from './fouling/fouling.js';
import { FoulingRepository } from './fouling/fouling.repository.js';
import { FittingsRepository } from './lives/fittings.repository.js';
import { MachineLives } from './machine-lives.js';
import { MachinesRepository } from './machines.repository.js';
import { RecomputeCondition } from './recompute-condition.js';

@Module({
  imports: [IntakeModule],
  controllers: [ConditionController, FoulingController],
  providers: [ConditionRepository, FiltrationTime, Fouling, FoulingRepository, FittingsRepository, MachinesRepository, MachineLives, RecomputeCondition],
  exports: [MachineLives],
})
export class ConditionModule {}
