import { Module } from '@nestjs/common';
import { StoreModule } from '../store.module.js';
import { ChangeOrders } from './change-orders.js';
import { LeadTimes } from './lead-times.js';
import { MakeOrders } from './make-orders.js';
import { OrderList } from './order-list.js';
import { OrdersController } from './orders.controller.js';
import { ReceiveOrder } from './receive-order.js';
import { ReceivingController } from './receiving.controller.js';
import { ReturnGoods } from './return-goods.js';

@Module({
  imports: [StoreModule],
  controllers: [OrdersController, ReceivingController],
  providers: [ChangeOrders, LeadTimes, MakeOrders, OrderList, ReceiveOrder, ReturnGoods],
  exports: [ChangeOrders, LeadTimes, MakeOrders, OrderList],
})
export class OrdersModule {}
