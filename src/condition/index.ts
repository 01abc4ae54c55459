export { ConditionModule } from './condition.module.js';
export { type Counter, type MachineLife, MachineLives } from './machine-lives.js';
