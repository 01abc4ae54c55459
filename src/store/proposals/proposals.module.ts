import { Module } from '@nestjs/common';
import { ImportTable } from '../csv/import-table.js';
import { StoreFacts } from '../demand/store-facts.js';
import { TankNeeds } from '../demand/tank-needs.js';
import { OrdersModule } from '../orders/orders.module.js';
import { ComputeLines } from './compute-lines.js';
import { Decide } from './decide.js';
import { JointOrders } from './joint/joint-orders.js';
import { OrderAccepted } from './order-accepted.js';
import { RecomputeReorder } from './recompute-reorder.js';
import { ReorderController } from './reorder.controller.js';
import { ReorderItem } from './reorder-item.js';
import { ReorderList } from './reorder-list.js';
import { StockSettingsController } from './settings/settings.controller.js';
import { SettingsList } from './settings/settings-list.js';
import { StockSettings } from './stock-settings.js';
import { WaysToBuy } from './ways-to-buy.js';

@Module({
  imports: [OrdersModule],
  controllers: [ReorderController, StockSettingsController],
  providers: [
    ComputeLines,
    Decide,
    ImportTable,
    JointOrders,
    OrderAccepted,
    RecomputeReorder,
    ReorderItem,
    ReorderList,
    SettingsList,
    StockSettings,
    StoreFacts,
    TankNeeds,
    WaysToBuy,
  ],
  exports: [RecomputeReorder, TankNeeds],
})
export class ProposalsModule {}
