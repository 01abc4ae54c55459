import { Module } from '@nestjs/common';
import { ClientsController } from './clients.controller.js';
import { Clients } from './clients.js';
import { FitPart } from './fit-part.js';
import { FittingHistory } from './fitting-history.js';
import { FittingsController } from './fittings.controller.js';
import { ItemsController } from './items.controller.js';
import { Items } from './items.js';
import { MetersController } from './meters.controller.js';
import { Meters } from './meters.js';
import { PositionsController } from './positions.controller.js';
import { Positions } from './positions.js';
import { SitePricesController } from './prices/site-prices.controller.js';
import { SitePrices } from './prices/site-prices.js';
import { RemovePart } from './remove-part.js';
import { ServiceStates } from './service-states.js';
import { SitesController } from './sites.controller.js';
import { Sites } from './sites.js';
import { SkidAreas } from './skid-areas.js';
import { SkidsController } from './skids.controller.js';
import { Skids } from './skids.js';
import { TakeBackFitting } from './take-back-fitting.js';
import { TanksController } from './tanks.controller.js';
import { Tanks } from './tanks.js';

@Module({
  controllers: [
    ClientsController,
    SitesController,
    SitePricesController,
    SkidsController,
    PositionsController,
    FittingsController,
    ItemsController,
    MetersController,
    TanksController,
  ],
  providers: [
    Clients,
    Sites,
    SitePrices,
    Skids,
    SkidAreas,
    ServiceStates,
    Positions,
    FitPart,
    RemovePart,
    FittingHistory,
    Items,
    Meters,
    Tanks,
    TakeBackFitting,
  ],
  exports: [ServiceStates, SkidAreas, TakeBackFitting],
})
export class RegistryModule {}
