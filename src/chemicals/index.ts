export { ChemicalNeeds } from './chemical-needs.js';
export { ChemicalsModule } from './chemicals.module.js';
export { CoverList } from './cover-list.js';
export { TANK_SHORT_ON_SQL } from './short-on-sql.js';
export { SKID_STANDING_SQL } from './skid-standing-sql.js';
