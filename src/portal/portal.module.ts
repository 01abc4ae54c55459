import { Module } from '@nestjs/common';
import { IntakeModule } from '../intake/index.js';
import { Fleet } from './fleet.js';
import { HistoryRepository } from './history/history.repository.js';
import { SkidHistory } from './history/skid-history.js';
import { PortalController } from './portal.controller.js';
import { PortalRepository } from './portal.repository.js';
import { Start } from './start.js';
import { StartRepository } from './start.repository.js';

@Module({
  imports: [IntakeModule],
  controllers: [PortalController],
  providers: [Fleet, HistoryRepository, SkidHistory, PortalRepository, Start, StartRepository],
})
export class PortalModule {}
