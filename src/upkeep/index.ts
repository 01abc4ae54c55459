export { standingOf } from './core/standing.js';
export { type DueForWork, DueReader } from './due-reader.js';
export { STANDING_RANK_SQL, STANDING_SQL } from './standing-sql.js';
export { type SheetVersion, TaskSheetReader } from './task-sheet-reader.js';
export { UpkeepModule } from './upkeep.module.js';
