import { Module } from '@nestjs/common';
import { CalibrationsController } from './calibrations.controller.js';
import { Calibrations } from './calibrations.js';
import { CalibrationsRepository } from './calibrations.repository.js';
import { FedRepository } from './fed.repository.js';
import { RecordCalibration } from './record-calibration.js';

@Module({
  controllers: [CalibrationsController],
  providers: [Calibrations, CalibrationsRepository, FedRepository, RecordCalibration],
  exports: [RecordCalibration],
})
export class InstrumentsModule {}
