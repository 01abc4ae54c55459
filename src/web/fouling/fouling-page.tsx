import { Link } from 'wouter';
import { query, type Schemas } from '../api/client.js';
import { day, number } from '../format.js';
import { PastSection } from '../outlooks/past-section.js';
import { RecordSection } from '../outlooks/record-section.js';
import { WaitingSection } from '../outlooks/waiting-section.js';
import { useMay } from '../session/session.js';
import { PageHead } from '../ui/page-head.js';
import { type Column, Sheet } from '../ui/sheet.js';
import { ShowMore } from '../ui/show-more.js';
import { Empty, Loaded } from '../ui/states.js';
import { foulingWords as said } from '../words/fouling.js';
import { words } from '../words.js';
import { FiltrationTimeSection } from './filtration-time-section.js';
import { ResistanceFigure } from './resistance-figure.js';

type Fouling = Schemas['FoulingView'];
type LawFit = Schemas['LawFitView'];
type Recovery = Schemas['CleanRecoveryView'];

const MILLION = 1e6;
const percent = (share: number | null) => (share === null ? '' : `${number(100 * share)} %`);

const LAW_COLUMNS: readonly Column<LawFit>[] = [
  { name: said.law, cell: ({ law }) => said.lawNames[law] },
  { name: said.scatter, numeric: true, cell: ({ scatter }) => `${number(100 * scatter, 1)} %` },
  { name: said.daysToLimit, numeric: true, cell: ({ daysToLimit }) => number(daysToLimit) },
];

const COLUMNS: readonly Column<Recovery>[] = [
  { name: said.kind, cell: (clean) => `${clean.kind}, ${day(clean.day)}` },
  { name: `${said.before}, ${said.lmhBar}`, numeric: true, cell: ({ beforeLmhBar }) => number(beforeLmhBar) },
  { name: `${said.after}, ${said.lmhBar}`, numeric: true, cell: ({ afterLmhBar }) => number(afterLmhBar) },
  { name: said.ofNew, numeric: true, cell: ({ ofNew }) => percent(ofNew) },
  { name: said.ofLast, numeric: true, cell: ({ ofLast }) => percent(ofLast) },
];

/** What fouls the membranes of one skid, what cleans gave back, which instruments do not fit, and how right its forecasts were. */
export default function FoulingPage({ skidId }: { skidId: string }) {
  const overview = query.useQuery('get', '/api/skids/{skidId}/overview', { params: { path: { skidId } } });
  const { seeWork } = useMay();
  const fouling = query.useQuery('get', '/api/skids/{skidId}/fouling', { params: { path: { skidId } } });
  return (
    <>
      <PageHead title={said.title} {...(overview.data === undefined ? {} : { over: `${overview.data.name}, ${overview.data.siteName}` })} />
      <p className="no-print">
        <Link href={`/skids/${skidId}`}>{words.skid.title}</Link>
      </p>
      <Loaded of={fouling} what={said.what}>
        {(found) => (
          <>
            <Doubts doubts={found.doubts} />
            <section className="block">
              <h2>{said.split}</h2>
              {found.days.length > 0 && <ResistanceFigure days={found.days} />}
              {found.remarks.map((remark) => (
                <p key={remark} className="hint">
                  {remark}
                </p>
              ))}
              <Sums found={found} />
            </section>
            <Cleans found={found} />
          </>
        )}
      </Loaded>
      {seeWork && <FiltrationTimeSection skidId={skidId} />}
      {seeWork && <WaitingSection skidId={skidId} />}
      <PastSection skidId={skidId} limitKind="permeability" />
      <PastSection skidId={skidId} limitKind="cartridge dP" />
      <RecordSection skidId={skidId} />
    </>
  );
}

function Doubts({ doubts }: { doubts: Fouling['doubts'] }) {
  if (doubts.length === 0) return null;
  return (
    <section className="block">
      <h2>{said.doubts}</h2>
      <ul>
        {doubts.map(({ text, since, makesDoubtful }) => (
          <li key={text}>
            {text} {said.since(day(since.slice(0, 10)))} {said.doubtful(makesDoubtful.join(', '))}
          </li>
        ))}
      </ul>
    </section>
  );
}

function Sums({ found: { index, blocking, exposure } }: { found: Fouling }) {
  return (
    <dl className="pairs">
      <div>
        <dt>{said.index}</dt>
        <dd>
          {index.perM2L !== null && <p>{said.indexValue(number(index.perM2L * MILLION, 2), number((index.standardError ?? 0) * MILLION, 2))}</p>}
          <p>{index.inWords}</p>
        </dd>
      </div>
      <div>
        <dt>{said.blocking}</dt>
        <dd>
          <p>{blocking.inWords}</p>
          {blocking.laws.length > 0 && (
            <details className="more">
              <summary>{said.laws}</summary>
              <Sheet caption={said.laws} columns={LAW_COLUMNS} rows={blocking.laws} keyOf={({ law }) => law} scrolls />
              <p className="hint">{said.lawsWhy}</p>
            </details>
          )}
        </dd>
      </div>
      <div>
        <dt>{said.exposure}</dt>
        <dd>
          {exposure.contacts === 0 ? said.noExposure : said.exposureValue(number(exposure.ppmH), number(exposure.contacts))}
          {exposure.unknown > 0 && <p>{said.exposureUnknown(number(exposure.unknown))}</p>}
        </dd>
      </div>
    </dl>
  );
}

function Cleans({ found: { recoveries, decline, inferred } }: { found: Fouling }) {
  const ofKind = (kind: Recovery['kind']) => recoveries.filter((clean) => clean.kind === kind).reverse();
  const maintenance = ofKind('CEB');
  return (
    <section className="block">
      <h2>{said.cleans}</h2>
      {decline !== null && <p>{decline}.</p>}
      {recoveries.length === 0 && <Empty title={said.noCleans}>{said.noCleansWhy}</Empty>}
      {recoveries.length > maintenance.length && <CleanTable caption={said.recoveryCleans} cleans={ofKind('CIP')} />}
      {maintenance.length > 0 && (
        <details className="more">
          <summary>{said.maintenanceCleans(number(maintenance.length))}</summary>
          <CleanTable caption={said.maintenanceCleans(number(maintenance.length))} cleans={maintenance} />
        </details>
      )}
      {inferred.length > 0 && (
        <>
          <h3>{said.inferred}</h3>
          <p className="hint">{said.inferredWhy}</p>
          <ul>
            {inferred.map((step) => (
              <li key={step.day}>{said.inferredLine(day(step.day), number(step.fromLmhBar), number(step.toLmhBar))}</li>
            ))}
          </ul>
        </>
      )}
    </section>
  );
}

function CleanTable({ caption, cleans }: { caption: string; cleans: readonly Recovery[] }) {
  return (
    <ShowMore rows={cleans}>
      {(rows) => <Sheet caption={caption} columns={COLUMNS} rows={rows} keyOf={(clean) => `${clean.kind} ${clean.day}`} scrolls />}
    </ShowMore>
  );
}
