export { standingOf } from './core/standing.js';
export { STANDING_RANK_SQL, STANDING_SQL } from './standing-sql.js';
export { UpkeepModule } from './upkeep.module.js';
