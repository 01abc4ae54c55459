import '../styles/chemicals.css';
import { Link } from 'wouter';
import { query, type Schemas } from '../api/client.js';
import { day, moment, number } from '../format.js';
import { useMay } from '../session/session.js';
import { PageHead } from '../ui/page-head.js';
import { type Column, Sheet } from '../ui/sheet.js';
import { StandingTag } from '../ui/standing.js';
import { Empty, Failed, Loaded } from '../ui/states.js';
import { chemicalWords } from '../words/chemicals.js';
import { words } from '../words.js';
import { BalanceChart } from './balance-chart.js';
import { ReminderCard } from './reminder-card.js';
import { AssayForm, DeliveryForm, DipForm } from './tank-forms.js';
import { TankUsers } from './tank-users.js';

const said = chemicalWords.tankPage;
type Tank = Schemas['TankCoverView'];

/** One tank: what is in it, how long it lasts, what its books say, and what is entered of it. */
export default function TankPage({ tankId }: { tankId: string }) {
  const list = query.useQuery('get', '/api/tanks/cover', { params: { query: { tankId, limit: 1 } } });
  return (
    <Loaded of={list} what={said.what}>
      {({ items: [tank] }) =>
        tank === undefined ? <Failed what={said.what} error={{ status: 404, title: words.chemicals.noMatch }} /> : <OneTank tank={tank} />
      }
    </Loaded>
  );
}

function OneTank({ tank }: { tank: Tank }) {
  const { tankId, timeZone } = tank;
  const may = useMay();
  const books = query.useQuery('get', '/api/tanks/{tankId}/books', { params: { path: { tankId } } });
  return (
    <>
      <PageHead
        over={
          <>
            {may.seeChemicals ? <Link href="/chemicals">{said.over}</Link> : said.over} · <Link href={`/skids/${tank.skidId}`}>{tank.skidName}</Link>,{' '}
            {tank.siteName}
          </>
        }
        title={`${tank.tankName}, ${tank.chemical}`}
        facts={[
          { name: words.chemicals.volume, value: `${number(tank.volumeL)} ${words.chemicals.ofCapacity(number(tank.capacityL))}` },
          { name: said.strengthNow, value: number(tank.strengthGL) },
          { name: said.cover, value: coverOf(tank) },
          { name: said.expires, value: day(tank.expiresOn) },
        ]}
      >
        <p>
          <StandingTag standing={tank.standing} /> · {chemicalWords.suppliedBy.toLowerCase()}{' '}
          {tank.suppliedBy === 'client' ? chemicalWords.suppliers.client : chemicalWords.suppliers.us}
          {tank.fedFrom !== null && `, ${chemicalWords.dayTank(tank.fedFrom)}`}
        </p>
      </PageHead>
      <section className="block">
        <p>{tank.reason}</p>
        <ReminderCard tank={tank} />
        <details className="more">
          <summary>{said.cautions}</summary>
          <ul>
            {tank.cautions.map((caution) => (
              <li key={caution}>{caution}</li>
            ))}
          </ul>
        </details>
      </section>
      {may.enterDips && <Forms tank={tank} />}
      <Loaded of={books} what={said.books}>
        {(found) => (
          <>
            <section className="block">
              <h2>{said.books}</h2>
              {found.points.length < 2 ? <Empty title={said.noBooks}>{said.noBooksWhy}</Empty> : <BalanceChart books={found} timeZone={timeZone} />}
            </section>
            <TankUsers tank={tank} consumers={found.consumers} />
            <section className="block">
              <h2>{said.deliveries}</h2>
              {found.deliveries.length === 0 ? (
                <Empty title={said.noDeliveries}>{said.noDeliveriesWhy}</Empty>
              ) : (
                <Sheet caption={said.deliveries} columns={deliveryColumns(timeZone)} rows={found.deliveries} keyOf={({ at }) => at} />
              )}
            </section>
          </>
        )}
      </Loaded>
      <Assays tank={tank} />
    </>
  );
}

function Forms({ tank }: { tank: Tank }) {
  return (
    <section className="block no-print">
      <details className="more">
        <summary>{said.enterDip}</summary>
        <DipForm tank={tank} />
      </details>
      <details className="more">
        <summary>{said.delivery}</summary>
        <DeliveryForm key={tank.awaited?.id ?? ''} tank={tank} />
      </details>
      <details className="more">
        <summary>{said.enterAssay}</summary>
        <AssayForm tank={tank} />
      </details>
    </section>
  );
}

function Assays({ tank: { tankId, timeZone } }: { tank: Tank }) {
  const assays = query.useQuery('get', '/api/tanks/{tankId}/assays', { params: { path: { tankId }, query: { limit: 20 } } });
  const columns: readonly Column<Schemas['AssayView']>[] = [
    { name: words.readings.at, cell: ({ at }) => moment(at, timeZone) },
    { name: words.chemicals.strength, numeric: true, cell: ({ strengthGL }) => number(strengthGL, 1) },
    { name: chemicalWords.form.stated, numeric: true, cell: ({ value, basis }) => `${number(value, 1)} ${basis}` },
    { name: chemicalWords.form.method, cell: ({ method }) => method },
    { name: chemicalWords.form.by, cell: ({ by }) => by },
    { name: words.readings.note, wide: true, cell: ({ note }) => note },
  ];
  return (
    <section className="block">
      <h2>{said.assays}</h2>
      <Loaded of={assays} what={said.assays}>
        {({ items }) =>
          items.length === 0 ? (
            <Empty title={said.noAssays}>{said.noAssaysWhy}</Empty>
          ) : (
            <Sheet caption={said.assays} columns={columns} rows={items} keyOf={({ id }) => id} />
          )
        }
      </Loaded>
    </section>
  );
}

const deliveryColumns = (timeZone: string): readonly Column<Schemas['DeliveredView']>[] => [
  { name: words.readings.at, cell: ({ at }) => moment(at, timeZone) },
  { name: words.events.volume, numeric: true, cell: ({ volumeL }) => number(volumeL) },
  { name: words.chemicals.strength, numeric: true, cell: ({ strengthGL }) => number(strengthGL, 1) },
  { name: chemicalWords.form.product, cell: ({ product }) => product ?? '' },
  { name: chemicalWords.form.batch, cell: ({ lot }) => lot ?? '' },
  { name: chemicalWords.form.expiresOn, numeric: true, cell: ({ expiresOn }) => day(expiresOn) },
  { name: chemicalWords.form.receivedBy, cell: ({ by }) => by },
];

function coverOf({ earlyDays, lateDays, volumeL }: Tank): string {
  if (volumeL === null) return words.none;
  return said.coverOf(earlyDays === null ? said.more : number(earlyDays), lateDays === null ? said.more : number(lateDays));
}
