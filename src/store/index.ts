export { Ledger, type Post, type Posted, type ShortLine } from './ledger.js';
export { type StockedPlace, StockOfPeople } from './stock-of-people.js';
export { StoreModule } from './store.module.js';
