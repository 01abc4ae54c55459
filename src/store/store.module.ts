import { Module } from '@nestjs/common';
import { CountsController } from './counts/counts.controller.js';
import { Counts } from './counts/counts.js';
import { Ledger } from './ledger.js';
import { LotsController } from './lots/lots.controller.js';
import { Lots } from './lots/lots.js';
import { PlacesController } from './places.controller.js';
import { Places } from './places.js';
import { PostStock } from './post-stock.js';
import { PostsTogether } from './posts-together.js';
import { RepairsController } from './repairs/repairs.controller.js';
import { Repairs } from './repairs/repairs.js';
import { ReservationsController } from './reservations/reservations.controller.js';
import { Reservations } from './reservations/reservations.js';
import { StockController } from './stock.controller.js';
import { StockList } from './stock-list.js';
import { StockOfPeople } from './stock-of-people.js';
import { TransfersController } from './transfers/transfers.controller.js';
import { Transfers } from './transfers/transfers.js';

@Module({
  controllers: [CountsController, LotsController, PlacesController, RepairsController, ReservationsController, StockController, TransfersController],
  providers: [Counts, Ledger, Lots, Places, PostStock, PostsTogether, Repairs, Reservations, StockList, StockOfPeople, Transfers],
  exports: [Ledger, Reservations, StockOfPeople],
})
export class StoreModule {}
