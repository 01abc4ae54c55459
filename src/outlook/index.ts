export { OutlookModule } from './outlook.module.js';
export { Trends } from './trends.js';
