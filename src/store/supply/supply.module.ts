import { Module } from '@nestjs/common';
import { ImportTable } from '../csv/import-table.js';
import { BarCodesController } from './bar-codes.controller.js';
import { BarCodes } from './bar-codes.js';
import { ItemSupplyController } from './item-supply.controller.js';
import { ItemSupplies } from './item-supply.js';
import { OffersController } from './offers.controller.js';
import { Offers } from './offers.js';
import { StoreSettingsController } from './settings.controller.js';
import { StoreSettings } from './settings.js';
import { SuppliersController } from './suppliers.controller.js';
import { Suppliers } from './suppliers.js';

@Module({
  controllers: [BarCodesController, ItemSupplyController, OffersController, StoreSettingsController, SuppliersController],
  providers: [BarCodes, ImportTable, ItemSupplies, Offers, StoreSettings, Suppliers],
})
export class SupplyModule {}
