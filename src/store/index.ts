export { sendTable } from './csv/table-file.js';
export { Ledger, type Post, type Posted, type ShortLine } from './ledger.js';
export { ChangeOrders } from './orders/change-orders.js';
export { OrderList } from './orders/order-list.js';
export { OrdersModule } from './orders/orders.module.js';
export type { StockedPlace } from './stock.repository.js';
export { StockOfPeople } from './stock-of-people.js';
export { StoreModule } from './store.module.js';
export { SupplyModule } from './supply/supply.module.js';
