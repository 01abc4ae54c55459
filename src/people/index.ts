export { FirstManager } from './first-manager.js';
export { hashPassword } from './passwords.js';
export { PeopleModule } from './people.module.js';
export { hashOfToken, newToken } from './tokens.js';
