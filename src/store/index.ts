export { Ledger, type Post, type Posted, type ShortLine } from './ledger.js';
export { StoreModule } from './store.module.js';
