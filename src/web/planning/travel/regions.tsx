import { useState } from 'react';
import { api, type Schemas } from '../../api/client.js';
import { written } from '../../format.js';
import { SayDialog } from '../../ui/say-dialog.js';
import { type Column, Sheet } from '../../ui/sheet.js';
import { travelWords as said } from '../../words/travel.js';
import type { Place } from './places.js';
import { RegionDialog } from './region-dialog.js';

type Region = Schemas['TravelRegionView'];

/** Roads by region; those of everywhere else first. */
export function Regions({ regions, sites }: { regions: readonly Region[]; sites: readonly Place[] }) {
  const [edited, setEdited] = useState<Region | 'new'>();
  const [leaving, setLeaving] = useState<Region>();
  const nameOf = (id: string) => sites.find((site) => site.id === id)?.name;
  const columns: readonly Column<Region>[] = [
    { name: said.region, cell: ({ name }) => name },
    {
      name: said.regionSites,
      wide: true,
      cell: ({ isUsual, siteIds }) => (isUsual ? said.allOthers : `${said.sitesCount(siteIds.length)}: ${siteIds.map(nameOf).filter(Boolean).join(', ')}`),
    },
    { name: said.factor, numeric: true, cell: ({ factor }) => written(factor) },
    { name: said.nearKmh, numeric: true, cell: ({ nearKmh }) => written(nearKmh) },
    { name: said.farKmh, numeric: true, cell: ({ farKmh }) => written(farKmh) },
    {
      name: said.change,
      cell: (region) => (
        <span className="row no-print">
          <button type="button" onClick={() => setEdited(region)}>
            {said.change}
            <span className="unseen"> {region.name}</span>
          </button>
          {!region.isUsual && (
            <button type="button" onClick={() => setLeaving(region)}>
              {said.remove}
              <span className="unseen"> {region.name}</span>
            </button>
          )}
        </span>
      ),
    },
  ];
  return (
    <section className="block">
      <h2>{said.regions}</h2>
      <p className="aside">{said.regionsNote}</p>
      <Sheet caption={said.regions} columns={columns} rows={regions} keyOf={({ id }) => id} />
      <p className="no-print">
        <button type="button" onClick={() => setEdited('new')}>
          {said.addRegion}
        </button>
      </p>
      {edited !== undefined && (
        <RegionDialog region={edited === 'new' ? undefined : edited} regions={regions} sites={sites} onClose={() => setEdited(undefined)} />
      )}
      {leaving !== undefined && (
        <SayDialog
          title={said.removeRegionAsk(leaving.name)}
          button={said.remove}
          send={() => api.DELETE('/api/planning/travel/regions/{id}', { params: { path: { id: leaving.id } } })}
          onClose={() => setLeaving(undefined)}
        >
          <p>{said.removeRegionNote}</p>
        </SayDialog>
      )}
    </section>
  );
}
