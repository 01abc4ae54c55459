export { FirstManager } from './first-manager.js';
export { People } from './people.js';
export { PeopleModule } from './people.module.js';
export { hashPassword } from './passwords.js';
