import { Module } from '@nestjs/common';
import { StoreFacts } from '../demand/store-facts.js';
import { TankNeeds } from '../demand/tank-needs.js';
import { OrdersModule } from '../orders/orders.module.js';
import { ComputeLines } from './compute-lines.js';
import { Decide } from './decide.js';
import { OrderAccepted } from './order-accepted.js';
import { RecomputeReorder } from './recompute-reorder.js';
import { ReorderController } from './reorder.controller.js';
import { ReorderItem } from './reorder-item.js';
import { ReorderList } from './reorder-list.js';
import { StockSettings } from './stock-settings.js';
import { WaysToBuy } from './ways-to-buy.js';

@Module({
  imports: [OrdersModule],
  controllers: [ReorderController],
  providers: [ComputeLines, Decide, OrderAccepted, RecomputeReorder, ReorderItem, ReorderList, StockSettings, StoreFacts, TankNeeds, WaysToBuy],
  exports: [RecomputeReorder, TankNeeds],
})
export class ProposalsModule {}
