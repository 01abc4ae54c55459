import type { Schemas } from '../../api/client.js';

export interface Place {
  readonly id: string;
  readonly name: string;
}

/** Where ways begin and end. */
export interface Places {
  readonly homes: readonly Place[];
  readonly sites: readonly Place[];
}

/** Homes that are known, and sites that are on the map. */
export const placesOf = (people: readonly Schemas['PersonPlanningView'][], sites: readonly Schemas['SitePlanningView'][]): Places => ({
  homes: people.flatMap(({ personId: id, name, latitude }) => (latitude === null ? [] : [{ id, name }])),
  sites: sites.flatMap(({ siteId: id, name, latitude }) => (latitude === null ? [] : [{ id, name }])),
});
