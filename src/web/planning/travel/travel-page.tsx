import '../../styles/planning.css';
import '../../styles/plan.css';
import { useState } from 'react';
import { Link } from 'wouter';
import { query, type Schemas } from '../../api/client.js';
import { PageHead } from '../../ui/page-head.js';
import { Loaded } from '../../ui/states.js';
import { travelWords as said } from '../../words/travel.js';
import { ByHandList } from './by-hand.js';
import { ByHandDialog } from './by-hand-dialog.js';
import { Fits } from './fits.js';
import { type Places, placesOf } from './places.js';
import { Regions } from './regions.js';
import { ServiceState } from './service-state.js';
import { WayLookup } from './way-lookup.js';

/** How long ways between homes and sites take, how that is known, and what managers know better. */
export default function TravelPage() {
  const people = query.useQuery('get', '/api/planning/people');
  const sites = query.useQuery('get', '/api/planning/sites');
  return (
    <>
      <PageHead over={<Link href="/plan">{said.over}</Link>} title={said.title} />
      <p className="aside">{said.note}</p>
      <ServiceState />
      <Loaded of={people} what={said.whatPlaces}>
        {(ofPeople) => (
          <Loaded of={sites} what={said.whatPlaces}>
            {(ofSites) => <Known places={placesOf(ofPeople, ofSites)} />}
          </Loaded>
        )}
      </Loaded>
    </>
  );
}

function Known({ places }: { places: Places }) {
  const [edited, setEdited] = useState<Partial<Schemas['TravelOverrideView']>>();
  const regions = query.useQuery('get', '/api/planning/travel/regions');
  return (
    <>
      <WayLookup places={places} onSet={setEdited} />
      <ByHandList onChange={setEdited} onAdd={() => setEdited({})} />
      <Loaded of={regions} what={said.whatRegions}>
        {(list) => (
          <>
            <Regions regions={list} sites={places.sites} />
            <Fits regions={list} />
          </>
        )}
      </Loaded>
      {edited !== undefined && <ByHandDialog way={edited} places={places} onClose={() => setEdited(undefined)} />}
    </>
  );
}
