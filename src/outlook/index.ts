export { OutlookModule } from './outlook.module.js';
