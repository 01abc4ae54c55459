import { useState } from 'react';
import { Link } from 'wouter';
import { query, type Schemas } from '../api/client.js';
import { day, number } from '../format.js';
import { PageHead } from '../ui/page-head.js';
import { lastDays, PeriodFields } from '../ui/period-fields.js';
import { type Column, Sheet } from '../ui/sheet.js';
import { StandingTag } from '../ui/standing.js';
import { Empty, Loaded } from '../ui/states.js';
import { requestWords } from '../words/requests.js';
import { startWords as said } from '../words/start.js';
import { words } from '../words.js';
import { plainStanding } from './plain-standing.js';
import { ProposedVisits } from './proposed-visits.js';
import '../styles/start.css';

type Site = Schemas['StartSiteView'];
type Skid = Schemas['StartSkidView'];

/** What a person of a client sees first: by site how the skids are, the water they made, who comes next and what is asked for. */
export default function StartPage() {
  const start = query.useQuery('get', '/api/start');
  return (
    <Loaded of={start} what={said.what}>
      {({ clientId, clientName, sites }) => (
        <>
          <PageHead over={clientName} title={words.fleet.own}>
            <Link className="target no-print" href="/requests/new">
              {said.askHere}
            </Link>
          </PageHead>
          {sites.length === 0 && <Empty title={said.none}>{said.noneWhy}</Empty>}
          <ProposedVisits />
          {sites.map((site) => (
            <SiteBlock key={site.siteId} site={site} />
          ))}
          <ReportBlock clientId={clientId} />
        </>
      )}
    </Loaded>
  );
}

function SiteBlock({ site }: { site: Site }) {
  return (
    <section className="block">
      <h2>{site.name}</h2>
      {site.skids.length > 0 ? (
        <Sheet caption={said.skids(site.name)} columns={columnsAt(site.timeZone)} rows={site.skids} keyOf={({ skidId }) => skidId} />
      ) : (
        <p className="aside">{said.noSkids}</p>
      )}
      <div className="halves">
        <NextVisit visit={site.nextVisit} />
        <OpenRequests site={site} />
      </div>
    </section>
  );
}

const columnsAt = (timeZone: string): readonly Column<Skid>[] => [
  {
    name: said.skid,
    cell: ({ skidId, name, kind }) => (
      <>
        <Link href={`/skids/${skidId}`}>{name}</Link>
        {kind === 'shared' && <small>{said.shared}</small>}
      </>
    ),
  },
  {
    name: said.state,
    wide: true,
    cell: (skid) => (
      <>
        <StandingTag standing={skid.standing} />
        <span className="line">{plainStanding(skid, timeZone).join(' ')}</span>
      </>
    ),
  },
  { name: said.water, cell: ({ water }) => (water === null ? words.none : <Water water={water} />) },
];

function Water({ water: { m3, from, to, days, estimatedDays, byHandDays } }: { water: NonNullable<Skid['water']> }) {
  if (m3 === null) {
    return (
      <>
        {said.noWater}
        <small>{said.noWaterWhy(day(from), day(to))}</small>
      </>
    );
  }
  const rests = [
    days === 30 ? said.wholeDays : said.someDays(days),
    ...(byHandDays > 0 ? [said.byHand(byHandDays)] : []),
    ...(estimatedDays > 0 ? [said.estimated(estimatedDays)] : []),
  ];
  return (
    <>
      {said.cubicMetres(number(m3))}
      <small>{rests.join('; ')}</small>
    </>
  );
}

function NextVisit({ visit }: { visit: Site['nextVisit'] }) {
  return (
    <div className="part-of-site">
      <h3>{said.visit}</h3>
      {visit === null ? (
        <p className="aside">{said.noVisit}</p>
      ) : (
        <>
          <p>
            <strong>{said.visitAt(day(visit.onDay), visit.startTime)}</strong> {visit.state === 'under way' && said.underWay}{' '}
            {visit.people.length > 0 && said.comes(visit.people.join(', '))}
          </p>
          {visit.noteToClient !== '' && <p className="text">{visit.noteToClient}</p>}
          {visit.work.length > 0 ? (
            <ul className="plain" aria-label={said.work}>
              {visit.work.map(({ skidName, title }) => (
                <li key={`${skidName} ${title}`}>{said.workAt(skidName, title)}</li>
              ))}
            </ul>
          ) : (
            <p className="aside">{said.noWork}</p>
          )}
        </>
      )}
    </div>
  );
}

function OpenRequests({ site: { requests, openRequests } }: { site: Site }) {
  return (
    <div className="part-of-site">
      <h3>{said.requests}</h3>
      {requests.length === 0 ? (
        <p className="aside">{said.noRequests}</p>
      ) : (
        <ul className="plain">
          {requests.map(({ jobId, title, skidName, state, stateNote, visitOn }) => (
            <li key={jobId}>
              <Link href={`/requests/${jobId}`}>{title}</Link>
              <small>
                {skidName} · {said.request([requestWords.states[state], stateNote].filter(Boolean).join(': '), visitOn === null ? null : day(visitOn))}
              </small>
            </li>
          ))}
        </ul>
      )}
      {openRequests > requests.length && (
        <p>
          <Link href="/requests">{said.more(openRequests)}</Link>
        </p>
      )}
    </div>
  );
}

/** A period of all skids as PDF. */
function ReportBlock({ clientId }: { clientId: string }) {
  const [period, setPeriod] = useState(() => lastDays(90));
  return (
    <section className="block no-print">
      <h2>{said.reports}</h2>
      <p className="hint">{said.reportsHint}</p>
      <div className="tools period-tools">
        <PeriodFields period={period} onChange={setPeriod} />
        <a className="target" href={`/api/clients/${clientId}/report.pdf?from=${period.from}&to=${period.to}`}>
          {said.openReport}
        </a>
      </div>
    </section>
  );
}
