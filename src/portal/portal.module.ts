import { Module } from '@nestjs/common';
import { Fleet } from './fleet.js';
import { PortalController } from './portal.controller.js';
import { PortalRepository } from './portal.repository.js';
import { Start } from './start.js';
import { StartRepository } from './start.repository.js';

@Module({ controllers: [PortalController], providers: [Fleet, PortalRepository, Start, StartRepository] })
export class PortalModule {}
