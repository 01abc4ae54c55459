export { ChemicalsModule } from './chemicals.module.js';
export { SKID_STANDING_SQL } from './skid-standing-sql.js';
