import { Link } from 'wouter';
import { STANDINGS, type Standing } from '../../shared/standing.js';
import { query, type Schemas } from '../api/client.js';
import { day, moment, number } from '../format.js';
import { useMay } from '../session/session.js';
import { FindBox } from '../ui/find-box.js';
import { PageHead } from '../ui/page-head.js';
import { Pager, usePaging } from '../ui/paging.js';
import { type Column, Sheet } from '../ui/sheet.js';
import { StandingTag } from '../ui/standing.js';
import { Empty, Loaded } from '../ui/states.js';
import { useFilter } from '../ui/use-filter.js';
import { words } from '../words.js';

type FleetSkid = Schemas['FleetSkidView'];

const COLUMNS: readonly Column<FleetSkid>[] = [
  {
    name: words.fleet.skid,
    cell: (skid) => (
      <>
        <Link href={`/skids/${skid.skidId}`}>{skid.name}</Link>
        <small>
          {skid.siteName}, {skid.clientName}
          {skid.kind === 'shared' && ` · ${words.fleet.shared}`}
          {skid.serviceState !== 'in service' && ` · ${skid.serviceState}`}
        </small>
      </>
    ),
  },
  { name: words.standing, cell: (skid) => <StandingTag standing={skid.standing} /> },
  { name: words.fleet.on, numeric: true, cell: (skid) => day(skid.nextOn) },
  { name: words.fleet.next, cell: (skid) => skid.nextTask ?? words.none },
  { name: words.fleet.lastReading, numeric: true, cell: (skid) => moment(skid.lastReadingAt, skid.timeZone) },
  { name: words.reason, wide: true, cell: (skid) => skid.reason },
];

export default function FleetPage() {
  const may = useMay();
  const filter = useFilter();
  const paging = usePaging(filter.key);
  const fleet = query.useQuery(
    'get',
    '/api/fleet',
    { params: { query: { limit: paging.limit, ...filter.query, ...(paging.cursor === undefined ? {} : { cursor: paging.cursor }) } } },
    { placeholderData: (before) => before },
  );
  return (
    <>
      <PageHead title={words.fleet.title} />
      <Loaded of={fleet} what={words.fleet.what}>
        {(list) => (
          <section className="block">
            <div className="block-head">
              <StandingCounts counts={list.counts} chosen={filter.standing} onChoose={filter.setStanding} />
              <div className="tools no-print">
                <FindBox value={filter.find} onFind={filter.setFind} />
              </div>
            </div>
            <p role="status" className="count">
              {words.fleet.count(number(list.total))}
            </p>
            {list.items.length > 0 && <Sheet caption={words.fleet.caption} columns={COLUMNS} rows={list.items} keyOf={(skid) => skid.skidId} />}
            {list.items.length === 0 &&
              (filter.key === '' ? (
                <Empty title={words.fleet.empty}>{may.manage ? <Link href="/registry">{words.fleet.emptyManager}</Link> : words.fleet.emptyOther}</Empty>
              ) : (
                <Empty title={words.fleet.noMatch}>{words.clearFilter}</Empty>
              ))}
            <Pager paging={paging} list={list} what={words.fleet.what} />
          </section>
        )}
      </Loaded>
    </>
  );
}

interface CountsProps {
  readonly counts: Schemas['FleetPageView']['counts'];
  readonly chosen: Standing | undefined;
  readonly onChoose: (standing: Standing | undefined) => void;
}

/** How many skids are how, and at the same time the filter. */
function StandingCounts({ counts, chosen, onChoose }: CountsProps) {
  const of = (standing: Standing) => counts.find((count) => count.standing === standing)?.skids ?? 0;
  const all = counts.reduce((sum, count) => sum + count.skids, 0);
  return (
    <fieldset className="choice">
      <legend className="unseen">{words.fleet.filter}</legend>
      <label>
        <input type="radio" name="standing" checked={chosen === undefined} onChange={() => onChoose(undefined)} />
        <span>
          {words.all} {number(all)}
        </span>
      </label>
      {STANDINGS.map((standing) => (
        <label key={standing}>
          <input type="radio" name="standing" checked={chosen === standing} onChange={() => onChoose(standing)} />
          <span>
            <StandingTag standing={standing} /> {number(of(standing))}
          </span>
        </label>
      ))}
    </fieldset>
  );
}
