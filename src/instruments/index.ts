export { InstrumentsModule } from './instruments.module.js';
export { type CalibrationToRecord, RecordCalibration } from './record-calibration.js';
