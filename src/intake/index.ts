export type { EventFact } from './core/event.js';
export type { HandEntry } from './core/hand-entry.js';
export { IntakeModule } from './intake.module.js';
export { type RecordedWork, RecordWork, type WorkEvent, type WorkFault, type WorkRecord } from './record-work.js';
export {
  type CleanRow,
  type HandRow,
  IntakeFacts,
  type MeterRow,
  type StateRow,
  type TankFacts,
} from './repositories/facts.repository.js';
