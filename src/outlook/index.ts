export { OutlookModule } from './outlook.module.js';
export { Trends } from './trends.js';
export { type ExtraByDay, Waiting } from './waiting/waiting.js';
