import { useState } from 'react';
import { api, query, type Schemas } from '../../api/client.js';
import { ifMatch } from '../../api/if-match.js';
import { number, written } from '../../format.js';
import { SayDialog } from '../../ui/say-dialog.js';
import { type Column, Sheet } from '../../ui/sheet.js';
import { Loaded } from '../../ui/states.js';
import { travelWords as said } from '../../words/travel.js';

type Fit = Schemas['TravelFitView'];
type Region = Schemas['TravelRegionView'];
interface Fitted {
  readonly fit: Fit;
  readonly region: Region;
  /** Unset: too few trips */
  readonly roads: Pick<Region, 'factor' | 'nearKmh' | 'farKmh'> | undefined;
}

const offInWords = ({ offMinutesNow: now, offMinutesThen: then }: Fit) =>
  now === null || then === null ? number(null) : said.changesTo(number(now, 1), number(then, 1));

function rowOf(fit: Fit, regions: readonly Region[]): Fitted[] {
  const region = regions.find(({ id }) => id === fit.regionId);
  const { factor, nearKmh, farKmh } = fit;
  const roads = factor === null || nearKmh === null || farKmh === null ? undefined : { factor, nearKmh, farKmh };
  return region === undefined ? [] : [{ fit, region, roads }];
}

/** What recorded trips ask of the roads of each region, with its numbers, to take or to leave. */
export function Fits({ regions }: { regions: readonly Region[] }) {
  const [taken, setTaken] = useState<Fitted>();
  const fits = query.useQuery('get', '/api/planning/travel/fit');
  const columns: readonly Column<Fitted>[] = [
    { name: said.region, cell: ({ region }) => region.name },
    { name: said.trips, numeric: true, cell: ({ fit }) => said.tripsOf(fit.trips, fit.tripsWithKm) },
    {
      name: said.factorThen,
      numeric: true,
      cell: ({ region, roads }) => (roads === undefined ? number(null) : said.changesTo(written(region.factor), written(roads.factor))),
    },
    {
      name: said.speeds,
      numeric: true,
      cell: ({ region, roads }) => (roads === undefined ? number(null) : said.changesTo(speedsOf(region), speedsOf(roads))),
    },
    { name: said.off, numeric: true, cell: ({ fit }) => offInWords(fit) },
    {
      name: said.suggestion,
      wide: true,
      cell: (row) => (
        <>
          {row.fit.summary}
          {row.roads !== undefined && (
            <>
              {isNoNearer(row.fit) && <small>{said.worse}</small>}{' '}
              <button type="button" className="no-print" onClick={() => setTaken(row)}>
                {said.take}
                <span className="unseen"> {row.region.name}</span>
              </button>
            </>
          )}
        </>
      ),
    },
  ];
  return (
    <section className="block">
      <h2>{said.fits}</h2>
      <p className="aside">{said.fitsNote}</p>
      <Loaded of={fits} what={said.whatFits}>
        {(list) => <Sheet caption={said.fits} columns={columns} rows={list.flatMap((fit) => rowOf(fit, regions))} keyOf={({ fit }) => fit.regionId} />}
      </Loaded>
      {taken?.roads !== undefined && <TakeDialog {...taken} roads={taken.roads} onClose={() => setTaken(undefined)} />}
    </section>
  );
}

const speedsOf = ({ nearKmh, farKmh }: Pick<Region, 'nearKmh' | 'farKmh'>) => `${written(nearKmh)}, ${written(farKmh)}`;
const isNoNearer = ({ offMinutesNow: now, offMinutesThen: then }: Fit) => now !== null && then !== null && then >= now;

function TakeDialog({ fit, region, roads, onClose }: Fitted & { roads: NonNullable<Fitted['roads']>; onClose: () => void }) {
  const { id, name, siteIds } = region;
  return (
    <SayDialog
      title={said.takeAsk(name)}
      button={said.take}
      send={() => api.PUT('/api/planning/travel/regions/{id}', { params: { path: { id } }, headers: ifMatch(region), body: { name, siteIds, ...roads } })}
      onClose={onClose}
    >
      <p>{fit.summary}</p>
      <p>{said.takeNote}</p>
    </SayDialog>
  );
}
