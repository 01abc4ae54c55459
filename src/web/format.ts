/** Pages and reports write numbers and dates alike. */
export * from '../shared/format.js';
