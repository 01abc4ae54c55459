export { Ledger, type Post, type Posted, type ShortLine } from './ledger.js';
export type { StockedPlace } from './stock.repository.js';
export { StockOfPeople } from './stock-of-people.js';
export { StoreModule } from './store.module.js';
export { SupplyModule } from './supply/supply.module.js';
