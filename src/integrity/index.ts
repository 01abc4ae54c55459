export { IntegrityModule } from './integrity.module.js';
export { RecordIntegrity } from './record-integrity.js';
