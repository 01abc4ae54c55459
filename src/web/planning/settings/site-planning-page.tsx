import '../../styles/planning.css';
import { useState } from 'react';
import { Link } from 'wouter';
import { query } from '../../api/client.js';
import { NotFound } from '../../ui/not-found.js';
import { PageHead } from '../../ui/page-head.js';
import { Loaded } from '../../ui/states.js';
import { planningWords } from '../../words/planning.js';
import { SiteForm } from './site-form.js';

const said = planningWords.site;

/** What plans have to know of a site. */
export default function SitePlanningPage({ siteId }: { siteId: string }) {
  const [saved, setSaved] = useState<number>();
  const sites = query.useQuery('get', '/api/planning/sites');
  return (
    <Loaded of={sites} what={said.what}>
      {(list) => {
        const site = list.find((each) => each.siteId === siteId);
        if (site === undefined) return <NotFound />;
        return (
          <>
            <PageHead over={<Link href={`/registry/sites/${siteId}`}>{`${site.name}, ${site.clientName}`}</Link>} title={said.title(site.name)} />
            <p className="aside">{said.note(site.timeZone)}</p>
            {site.latitude === null && <p className="note-box">{said.nowhere}</p>}
            <SiteForm key={site.version} site={site} isSaved={site.version === saved} onSaved={setSaved} />
          </>
        );
      }}
    </Loaded>
  );
}
