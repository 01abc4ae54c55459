import { Link } from 'wouter';
import { api, query, type Schemas } from '../api/client.js';
import { day, number } from '../format.js';
import { useMay } from '../session/session.js';
import { PageHead } from '../ui/page-head.js';
import { Refusal } from '../ui/refusal.js';
import { type Column, Sheet } from '../ui/sheet.js';
import { Empty, Loaded } from '../ui/states.js';
import { useCall } from '../ui/use-call.js';
import { upkeepWords as said } from '../words/upkeep.js';

type Head = Schemas['RuleSetVersionHeadView'];

const COLUMNS: readonly Column<Head>[] = [
  { name: said.version, cell: ({ id, no }) => <Link href={`/rules/${id}`}>{said.openVersion(no)}</Link> },
  {
    name: said.set,
    cell: ({ publishedAt, publishedBy, note }) => (
      <>
        {publishedAt === null ? said.draft : said.published(day(publishedAt.slice(0, 10)), publishedBy ?? '')}
        {note !== '' && <small>{note}</small>}
      </>
    ),
  },
  { name: said.rulesCount, numeric: true, cell: ({ rules }) => number(rules) },
  { name: said.followers, numeric: true, cell: ({ skids }) => number(skids) },
];

/** Rule sets with their versions: published ones are final, a draft can be edited. */
export default function RuleSetsPage() {
  const may = useMay();
  const { call, isBusy, problem } = useCall();
  const sets = query.useQuery('get', '/api/rule-sets', { params: { query: {} } });
  return (
    <>
      <PageHead title={said.sets} />
      <Refusal problem={problem} />
      <Loaded of={sets} what={said.whatSets}>
        {(items) =>
          items.length === 0 ? (
            <Empty title={said.noSets}>{said.noSetsWhy}</Empty>
          ) : (
            items.map((set) => (
              <section className="block" key={set.id}>
                <h2>{set.name}</h2>
                {set.note !== '' && <p className="hint">{set.note}</p>}
                <Sheet caption={set.name} columns={COLUMNS} rows={set.versions} keyOf={({ id }) => id} />
                {may.manage && set.versions.every(({ publishedAt }) => publishedAt !== null) && (
                  <div className="row">
                    <button
                      type="button"
                      disabled={isBusy}
                      onClick={() => void call(() => api.POST('/api/rule-sets/{id}/versions', { params: { path: { id: set.id } }, body: {} }))}
                    >
                      {said.makeDraft}
                    </button>
                  </div>
                )}
              </section>
            ))
          )
        }
      </Loaded>
      {may.manage && (
        <div className="row">
          <button type="button" disabled={isBusy} onClick={() => void call(() => api.POST('/api/rule-sets/library'))}>
            {said.takeOver}
          </button>
        </div>
      )}
    </>
  );
}
