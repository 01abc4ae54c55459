export { IntakeModule } from './intake.module.js';
export {
  type CleanRow,
  type HandRow,
  IntakeFacts,
  type MeterRow,
  type StateRow,
  type TankFacts,
} from './repositories/facts.repository.js';
