import { Module } from '@nestjs/common';
import { Fleet } from './fleet.js';
import { PortalController } from './portal.controller.js';
import { PortalRepository } from './portal.repository.js';

@Module({ controllers: [PortalController], providers: [Fleet, PortalRepository] })
export class PortalModule {}
