export type { HandEntry } from './core/hand-entry.js';
export { IntakeModule } from './intake.module.js';
export { RecordWork, type WorkEvent } from './record-work.js';
export {
  type CleanRow,
  type HandRow,
  IntakeFacts,
  type MeterRow,
  type StateRow,
  type TankFacts,
} from './repositories/facts.repository.js';
