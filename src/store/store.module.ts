import { Module } from '@nestjs/common';
import { Ledger } from './ledger.js';
import { PlacesController } from './places.controller.js';
import { Places } from './places.js';
import { PostStock } from './post-stock.js';
import { StockController } from './stock.controller.js';
import { StockList } from './stock-list.js';
import { StockOfPeople } from './stock-of-people.js';

@Module({
  controllers: [PlacesController, StockController],
  providers: [Ledger, Places, PostStock, StockList, StockOfPeople],
  exports: [Ledger, StockOfPeople],
})
export class StoreModule {}
