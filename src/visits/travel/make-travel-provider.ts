import type { FactoryProvider } from '@nestjs/common';
import { Clock, ServiceSettings } from '../../app/index.js';
import { RoadTable } from './road-table.js';
import { TravelByDistance, TravelByRoadTable, TravelProvider } from './travel-provider.js';

/** The road table where the settings name one, else the distance. */
export const travelProvider: FactoryProvider<TravelProvider> = {
  provide: TravelProvider,
  inject: [ServiceSettings, Clock],
  useFactory: ({ travelTableUrl }: ServiceSettings, clock: Clock) =>
    travelTableUrl === undefined ? new TravelByDistance() : new TravelByRoadTable(new RoadTable(travelTableUrl, clock)),
};
