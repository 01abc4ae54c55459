export { ConditionModule } from './condition.module.js';
export { type MachineLife, MachineLives } from './machine-lives.js';
