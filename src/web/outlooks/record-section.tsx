import { Link } from 'wouter';
import { query, type Schemas } from '../api/client.js';
import { number } from '../format.js';
import { type Column, Sheet } from '../ui/sheet.js';
import { Empty, Loaded } from '../ui/states.js';
import { outlookWords as said } from '../words/outlooks.js';

type Line = Schemas['OutlookRecordLineView'];
type Part = Schemas['PartRecordView'];

const COLUMNS: readonly Column<Line>[] = [
  {
    name: said.ahead,
    cell: ({ ahead, limitKind }) => (
      <>
        {ahead === 'all' ? said.all : ahead}
        <small>{said.limits[limitKind]}</small>
      </>
    ),
  },
  {
    name: said.scored,
    numeric: true,
    cell: ({ scored, lives, afterwards }) => (
      <>
        {number(scored)}
        <small>{said.lives(number(lives))}</small>
        {afterwards > 0 && <small>{said.afterwards(number(afterwards))}</small>}
      </>
    ),
  },
  { name: said.early, numeric: true, cell: ({ earlyChanges }) => number(earlyChanges) },
  {
    name: said.error,
    numeric: true,
    cell: ({ medianErrorDays, medianErrorShare }) =>
      medianErrorDays === null ? (
        ''
      ) : (
        <>
          {said.days(number(medianErrorDays, 1))}
          {medianErrorShare !== null && <small>{said.share(number(100 * medianErrorShare))}</small>}
        </>
      ),
  },
  {
    name: said.inside,
    numeric: true,
    cell: ({ inside, scored, insideRange }) =>
      scored === 0 ? (
        ''
      ) : (
        <>
          {said.insideOf(number(inside), number(scored))}
          {insideRange !== null && <small>{said.chance(number(100 * (insideRange[0] ?? 0)), number(100 * (insideRange[1] ?? 1)))}</small>}
        </>
      ),
  },
  { name: said.later, numeric: true, cell: ({ saidLater, scored }) => (scored === 0 ? '' : said.insideOf(number(saidLater), number(scored))) },
  { name: said.read, wide: true, cell: ({ inWords }) => inWords },
];

const PART_COLUMNS: readonly Column<Part>[] = [
  {
    name: said.subject,
    cell: ({ skidId, skidName, subject, limitKind }) => (
      <>
        <Link href={`/skids/${skidId}`}>{skidName}</Link>
        <small>
          {subject}: {said.limits[limitKind]}
        </small>
      </>
    ),
  },
  {
    name: said.inside,
    numeric: true,
    cell: ({ inside, scored, lives, insideRange }) => (
      <>
        {said.insideOf(number(inside), number(scored))}
        <small>{said.lives(number(lives))}</small>
        <small>{said.chance(number(100 * (insideRange[0] ?? 0)), number(100 * (insideRange[1] ?? 1)))}</small>
      </>
    ),
  },
];

/** How right forecasts have been; of one skid, or of all that one may see. */
export function RecordSection({ skidId }: { skidId?: string }) {
  const record = query.useQuery('get', '/api/outlooks/record', { params: { query: skidId === undefined ? {} : { skidId } } });
  return (
    <section className="block">
      <h2>{said.record}</h2>
      <Loaded of={record} what={said.whatRecord}>
        {({ lines, parts, worst }) =>
          lines.length === 0 ? (
            <Empty title={said.noRecord}>{said.noRecordWhy}</Empty>
          ) : (
            <>
              <p className="hint">{said.how}</p>
              <Sheet caption={said.record} columns={COLUMNS} rows={lines} keyOf={({ limitKind, ahead }) => `${limitKind} ${ahead}`} />
              {parts.length > 0 && (
                <>
                  <h3>{said.byPart}</h3>
                  <Sheet
                    caption={said.byPart}
                    columns={PART_COLUMNS}
                    rows={parts}
                    keyOf={({ skidId, subject, limitKind }) => `${skidId} ${subject} ${limitKind}`}
                  />
                </>
              )}
              {worst !== null && <p>{said.worst(worst.skidName, number(worst.inside), number(worst.scored))}</p>}
            </>
          )
        }
      </Loaded>
    </section>
  );
}
