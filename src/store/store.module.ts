import { Module } from '@nestjs/common';
import { Ledger } from './ledger.js';
import { PlacesController } from './places.controller.js';
import { Places } from './places.js';

@Module({
  controllers: [PlacesController],
  providers: [Ledger, Places],
  exports: [Ledger],
})
export class StoreModule {}
