import { lazy } from 'react';
import { Route, Switch } from 'wouter';
import { useMay } from '../session/session.js';
import { NotFound } from '../ui/not-found.js';

const StockPage = lazy(() => import('./stock-page.js'));
const ReorderPage = lazy(() => import('./reorder-page.js'));
const CardPage = lazy(() => import('./card-page.js'));
const OrdersPage = lazy(() => import('./orders-page.js'));
const OrderPage = lazy(() => import('./order-page.js'));
const CountsPage = lazy(() => import('./counts-page.js'));
const CountPage = lazy(() => import('./count-page.js'));
const LotsPage = lazy(() => import('./lots-page.js'));
const TransfersPage = lazy(() => import('./transfers-page.js'));
const RepairsPage = lazy(() => import('./repairs-page.js'));
const TablesPage = lazy(() => import('./tables-page.js'));
const PostPage = lazy(() => import('./post-page.js'));
const StorePlacesPage = lazy(() => import('./places-page.js'));

/** The pages of the store by their addresses. */
export default function StorePages() {
  const { keepStore } = useMay();
  return (
    <Switch>
      {keepStore && <Route path="/reorder" component={ReorderPage} />}
      {keepStore && <Route path="/orders" component={OrdersPage} />}
      {keepStore && <Route path="/orders/:id">{({ id }) => <OrderPage key={id} orderId={id} />}</Route>}
      <Route path="/counts" component={CountsPage} />
      <Route path="/counts/:id">{({ id }) => <CountPage key={id} countId={id} />}</Route>
      <Route path="/lots" component={LotsPage} />
      <Route path="/transfers" component={TransfersPage} />
      <Route path="/stock/repairs" component={RepairsPage} />
      {keepStore && <Route path="/stock/tables" component={TablesPage} />}
      <Route path="/stock" component={StockPage} />
      <Route path="/stock/items/:id">{({ id }) => <CardPage key={id} itemId={id} />}</Route>
      <Route path="/stock/post" component={PostPage} />
      <Route path="/stock/places" component={StorePlacesPage} />
      <Route component={NotFound} />
    </Switch>
  );
}
