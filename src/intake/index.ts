export type { HandEntry } from './core/hand-entry.js';
export { EnterEvents } from './enter-events.js';
export { EventDto } from './events.dto.js';
export { IntakeModule } from './intake.module.js';
export { LoadReportView, toReportView } from './load.dto.js';
export { RecordWork, type WorkEvent } from './record-work.js';
export {
  type CleanRow,
  IntakeFacts,
  type MeterRow,
  type StateRow,
  type TankFacts,
} from './repositories/facts.repository.js';
export { SERVICE_LOG_SQL } from './repositories/service-log-sql.js';
export { SkidAccess } from './skid-access.js';
