import { Link, useLocation } from 'wouter';
import { api, query, type Schemas } from '../api/client.js';
import { day } from '../format.js';
import { useMay } from '../session/session.js';
import { PageHead } from '../ui/page-head.js';
import { Refusal } from '../ui/refusal.js';
import { type Column, Sheet } from '../ui/sheet.js';
import { Loaded } from '../ui/states.js';
import { useCall } from '../ui/use-call.js';
import { upkeepWords as said } from '../words/upkeep.js';

type Version = Schemas['RuleSetVersionView'];
type Rule = Schemas['RuleView'];

/** The rules of one version, what differs from the version before, and which skids follow it. */
export default function RuleVersionPage({ versionId }: { versionId: string }) {
  const version = query.useQuery('get', '/api/rule-sets/versions/{versionId}', { params: { path: { versionId } } });
  return (
    <Loaded of={version} what={said.whatSets}>
      {(found) => <OneVersion version={found} />}
    </Loaded>
  );
}

function OneVersion({ version }: { version: Version }) {
  const may = useMay();
  const [, go] = useLocation();
  const { call, isBusy, problem } = useCall();
  const isDraft = version.publishedAt === null;
  const path = { versionId: version.id };
  const columns: readonly Column<Rule>[] = [
    { name: said.task, cell: ({ task, taskSheetId }) => <Link href={`/task-sheets/${taskSheetId}`}>{task}</Link> },
    { name: said.place, cell: ({ positionKind }) => positionKind },
    { name: said.rule, wide: true, cell: ({ inWords }) => inWords },
    { name: said.minutes, numeric: true, cell: ({ usualMinutes, crew }) => (crew === 1 ? usualMinutes : `${crew} × ${usualMinutes}`) },
    { name: said.note, wide: true, cell: ({ note }) => note },
  ];
  const edit: readonly Column<Rule>[] = isDraft && may.manage ? [{ name: said.remove, cell: (rule) => <Remove rule={rule} /> }] : [];
  return (
    <>
      <PageHead
        over={version.ruleSetName}
        title={said.openVersion(version.no)}
        facts={[{ name: said.version, value: isDraft ? said.draft : said.published(day((version.publishedAt ?? '').slice(0, 10)), version.publishedBy ?? '') }]}
      />
      <Refusal problem={problem} />
      {isDraft && may.manage && (
        <div className="row">
          <button
            type="button"
            className="main-button"
            disabled={isBusy}
            onClick={() => void call(() => api.POST('/api/rule-sets/versions/{versionId}/publish', { params: { path }, body: {} }))}
          >
            {said.publish}
          </button>
          <button
            type="button"
            disabled={isBusy}
            onClick={() =>
              void call(
                () => api.DELETE('/api/rule-sets/versions/{versionId}', { params: { path } }),
                () => go('/rules'),
              )
            }
          >
            {said.dropDraft}
          </button>
        </div>
      )}
      <section className="block">
        <h2>{said.changes}</h2>
        {version.changes.length === 0 ? (
          <p className="aside">{said.noChanges}</p>
        ) : (
          <ul className="plain">
            {version.changes.map(({ positionKind, task, what, fields }) => (
              <li key={`${positionKind} ${task}`}>
                {said.change[what]}: {task} ({positionKind}) {fields.map(({ field, from, to }) => `${field} ${from} → ${to}`).join('; ')}
              </li>
            ))}
          </ul>
        )}
      </section>
      <section className="block">
        <h2>{said.rulesCount}</h2>
        <Sheet caption={said.rulesCount} columns={[...columns, ...edit]} rows={version.rules} keyOf={({ id }) => id} />
      </section>
      <section className="block">
        <h2>{said.followers}</h2>
        <ul className="plain">
          {version.skids.map(({ id, name, siteName, clientName }) => (
            <li key={id}>
              <Link href={`/skids/${id}`}>{name}</Link>, {siteName}, {clientName}
            </li>
          ))}
        </ul>
      </section>
    </>
  );
}

function Remove({ rule }: { rule: Rule }) {
  const { call, isBusy, problem } = useCall();
  return (
    <>
      <button type="button" disabled={isBusy} onClick={() => void call(() => api.DELETE('/api/rules/{id}', { params: { path: { id: rule.id } } }))}>
        {said.remove} <span className="unseen">{rule.task}</span>
      </button>
      <Refusal problem={problem} />
    </>
  );
}
