import { Module } from '@nestjs/common';
import { Ledger } from './ledger.js';
import { PlacesController } from './places.controller.js';
import { Places } from './places.js';
import { PostStock } from './post-stock.js';
import { ReservationsController } from './reservations/reservations.controller.js';
import { Reservations } from './reservations/reservations.js';
import { StockController } from './stock.controller.js';
import { StockList } from './stock-list.js';
import { StockOfPeople } from './stock-of-people.js';
import { TransfersController } from './transfers/transfers.controller.js';
import { Transfers } from './transfers/transfers.js';

@Module({
  controllers: [PlacesController, ReservationsController, StockController, TransfersController],
  providers: [Ledger, Places, PostStock, Reservations, StockList, StockOfPeople, Transfers],
  exports: [Ledger, Reservations, StockOfPeople],
})
export class StoreModule {}
