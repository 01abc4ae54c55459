export { JobHooks } from './job-hooks.js';
export { JobsModule } from './jobs.module.js';
export { MakeJobs } from './make-jobs.js';
export { SheetView } from './sheets.dto.js';
export { SheetsOfJobs } from './sheets-of-jobs.js';
