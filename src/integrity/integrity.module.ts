import { Module } from '@nestjs/common';
import { RegistryModule } from '../registry/index.js';
import { IntegrityController } from './integrity.controller.js';
import { IntegrityRepository } from './integrity.repository.js';
import { IntegrityRecord } from './integrity-record.js';
import { RecordIntegrity } from './record-integrity.js';

@Module({
  imports: [RegistryModule],
  controllers: [IntegrityController],
  providers: [IntegrityRecord, IntegrityRepository, RecordIntegrity],
  exports: [RecordIntegrity],
})
export class IntegrityModule {}
