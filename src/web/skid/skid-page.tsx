import { lazy, Suspense, useState } from 'react';
import { Link } from 'wouter';
import { query, type Schemas } from '../api/client.js';
import { problemOf } from '../api/problem.js';
import { TrendPair } from '../chart/trend-pair.js';
import { day, moment, number } from '../format.js';
import { useMay } from '../session/session.js';
import { PageHead } from '../ui/page-head.js';
import { StandingTag } from '../ui/standing.js';
import { Failed, Loaded, Loading } from '../ui/states.js';
import { words } from '../words.js';
import { MachineSection } from './machine-section.js';
import { PartSection } from './part-section.js';
import { CalibrationSection, IntegritySection, ReportToPrint, VisitsToCome, WorkOfSkid } from './proof-sections.js';
import { ServiceLogSection } from './service-log-section.js';
import { SkidDues } from './skid-dues.js';
import { SkidTanks } from './skid-tanks.js';

const IndicatorSection = lazy(() => import('./indicator-section.js'));

type Overview = Schemas['SkidOverviewView'];

export default function SkidPage({ skidId }: { skidId: string }) {
  const overview = query.useQuery('get', '/api/skids/{skidId}/overview', { params: { path: { skidId } } });
  if (overview.isError) {
    return (
      <>
        <PageHead title={problemOf(overview.error).status === 404 ? words.skid.unknown : words.skid.title} />
        <Failed what={words.skid.what} error={overview.error} again={() => void overview.refetch()} />
      </>
    );
  }
  if (overview.data === undefined) return <Loading what={words.skid.what} />;
  const skid = overview.data;
  return (
    <>
      <PageHead over={`${skid.siteName}, ${skid.clientName}`} title={skid.name} facts={factsOf(skid)} />
      <p className={`reason reason-${skid.standing}`}>
        {skid.nextTask !== null && <strong>{skid.nextTask}. </strong>}
        {skid.reason}
      </p>
      <SkidLinks skidId={skidId} />
      {skid.kind === 'skid' && <Trends skidId={skidId} timeZone={skid.timeZone} />}
      <SkidDues skidId={skidId} />
      <VisitsToCome skidId={skidId} timeZone={skid.timeZone} />
      <MachineSection skidId={skidId} timeZone={skid.timeZone} />
      <PartSection skidId={skidId} timeZone={skid.timeZone} />
      <SkidTanks skidId={skidId} />
      <IntegritySection skidId={skidId} timeZone={skid.timeZone} />
      <CalibrationSection skidId={skidId} timeZone={skid.timeZone} />
      <WorkOfSkid skidId={skidId} timeZone={skid.timeZone} />
      <ServiceLogSection skidId={skidId} timeZone={skid.timeZone} />
      <Indicators skidId={skidId} />
      <ReportToPrint skidId={skidId} />
    </>
  );
}

const factsOf = (skid: Overview) => [
  { name: words.standing, value: <StandingTag standing={skid.standing} /> },
  { name: words.skid.state, value: skid.serviceState },
  ...(skid.nextTask === null ? [] : [{ name: words.fleet.next, value: `${skid.nextTask}, ${day(skid.nextOn)}` }]),
  { name: words.fleet.lastReading, value: moment(skid.lastReadingAt, skid.timeZone) },
  ...(skid.dailyFiltrateM3 === null ? [] : [{ name: words.skid.dailyFiltrate, value: `${number(skid.dailyFiltrateM3)} m³` }]),
  ...(skid.filtrationHours30Days === null ? [] : [{ name: words.skid.hours, value: `${number(skid.filtrationHours30Days)} h` }]),
  ...(skid.water === '' ? [] : [{ name: words.skid.water, value: skid.water }]),
];

function SkidLinks({ skidId }: { skidId: string }) {
  const may = useMay();
  const links = [
    { href: `/skids/${skidId}/fouling`, name: words.skid.fouling, shown: true },
    { href: `/skids/${skidId}/rules`, name: words.places.rules, shown: may.seeUpkeep },
    { href: `/skids/${skidId}/history`, name: words.skid.history, shown: true },
    { href: `/requests/new?skid=${skidId}`, name: words.skid.ask, shown: !may.seeWork },
    { href: `/skids/${skidId}/load`, name: words.loads.title, shown: may.loadLogs },
    { href: `/skids/${skidId}/breakdown`, name: words.skid.reportBreakdown, shown: may.doWork },
    { href: `/skids/${skidId}/new-job`, name: words.skid.newJob, shown: may.manage },
    { href: `/skids/${skidId}/readings`, name: words.readings.enter, shown: may.enterReadings },
    { href: `/skids/${skidId}/sheet`, name: words.readings.printSheet, shown: may.enterReadings },
    { href: `/skids/${skidId}/profiles`, name: words.places.profiles, shown: may.loadLogs },
    { href: `/registry/skids/${skidId}`, name: words.places.registry, shown: may.manage },
  ].filter((link) => link.shown);
  if (links.length === 0) return null;
  return (
    <nav className="links no-print" aria-label={words.skid.links}>
      <ul>
        {links.map(({ href, name }) => (
          <li key={href}>
            <Link href={href}>{name}</Link>
          </li>
        ))}
      </ul>
    </nav>
  );
}

/** Fetched when somebody asks for them, code and figures. */
function Indicators({ skidId }: { skidId: string }) {
  const [isOpen, setOpen] = useState(false);
  return (
    <section className="block">
      <h2>{words.skid.indicators}</h2>
      {isOpen ? (
        <Suspense fallback={<Loading what={words.skid.indicators} />}>
          <IndicatorSection skidId={skidId} />
        </Suspense>
      ) : (
        <p className="no-print">
          <button type="button" onClick={() => setOpen(true)}>
            {words.skid.showIndicators}
          </button>
        </p>
      )}
    </section>
  );
}

/** Both trends share their time axis, so they are shown together. */
function Trends({ skidId, timeZone }: { skidId: string; timeZone: string }) {
  const permeability = query.useQuery('get', '/api/skids/{skidId}/trends/{quantity}', { params: { path: { skidId, quantity: 'permeability' } } });
  const cartridges = query.useQuery('get', '/api/skids/{skidId}/trends/{quantity}', { params: { path: { skidId, quantity: 'cartridge-dp' } } });
  return (
    <div className="trends-hold">
      <Loaded of={permeability} what={words.trend.what}>
        {(first) => (
          <Loaded of={cartridges} what={words.trend.what}>
            {(second) => <TrendPair views={[first, second].filter(isOfUse)} timeZone={timeZone} />}
          </Loaded>
        )}
      </Loaded>
    </div>
  );
}

/** A skid without cartridges, or whose pressures nobody measures, has nothing to draw of them. */
const isOfUse = ({ values, limit }: Schemas['TrendView']) => limit !== null || values.some((value) => value !== null);
