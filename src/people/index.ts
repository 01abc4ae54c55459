export { FirstManager } from './first-manager.js';
export { PeopleModule } from './people.module.js';
