export { InstrumentsModule } from './instruments.module.js';
export { RecordCalibration } from './record-calibration.js';
