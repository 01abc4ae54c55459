import '../styles/plan.css';
import '../styles/upkeep.css';
import { useState } from 'react';
import { Link } from 'wouter';
import { api, query, type Schemas } from '../api/client.js';
import { number } from '../format.js';
import { FindBox } from '../ui/find-box.js';
import { PageHead } from '../ui/page-head.js';
import { Pager, usePaging } from '../ui/paging.js';
import { Refusal } from '../ui/refusal.js';
import { type Column, Sheet } from '../ui/sheet.js';
import { Empty, Loaded } from '../ui/states.js';
import { useCall } from '../ui/use-call.js';
import { useChoices } from '../ui/use-choices.js';
import { ruleWords } from '../words/rules.js';
import { skidRuleWords as said } from '../words/skid-rules.js';
import { words } from '../words.js';
import { FollowDialog } from './follow-dialog.js';
import { ClientChoice } from './scope-choices.js';
import { useSkidsChosen } from './use-skids-chosen.js';

type Version = Schemas['RuleSetVersionView'];
/** As many as the service moves at a time. */
const MOST = 200;

/** Chooses skids, shows what becomes of their due list, and lets them follow a published version. */
export default function MoveSkidsPage({ versionId }: { versionId: string }) {
  const version = query.useQuery('get', '/api/rule-sets/versions/{versionId}', { params: { path: { versionId } } });
  return (
    <Loaded of={version} what={ruleWords.whatVersion}>
      {(found) => <MoveSkids version={found} />}
    </Loaded>
  );
}

function MoveSkids({ version }: { version: Version }) {
  const chosen = useSkidsChosen();
  const [isOpen, setOpen] = useState(false);
  const [moved, setMoved] = useState<number>();
  const { id, no, ruleSetName } = version;
  const named = ruleWords.named(ruleSetName, no);
  const count = chosen.ids.length;
  const state = count > MOST ? said.tooMany(MOST) : count === 0 && moved !== undefined ? said.moved(moved) : said.chosen(count);
  return (
    <>
      <PageHead over={<Link href={`/rules/${id}`}>{named}</Link>} title={said.moveTitle(ruleSetName, no)}>
        <p className="hint">{version.publishedAt === null ? said.draftFirst : said.moveNote}</p>
      </PageHead>
      {version.publishedAt !== null && (
        <section className="block">
          <SkidList version={version} chosen={chosen} />
          <div className="plan-bar no-print">
            <p role="status">{state}</p>
            <button type="button" className="main-button" disabled={count === 0 || count > MOST} onClick={() => setOpen(true)}>
              {said.look}
            </button>
            {count > 0 && (
              <button type="button" onClick={chosen.clear}>
                {said.clear}
              </button>
            )}
          </div>
        </section>
      )}
      {isOpen && (
        <FollowDialog
          title={said.previewTitle(named)}
          versionId={id}
          skidIds={chosen.ids}
          onClose={() => setOpen(false)}
          onMoved={(answer) => {
            setMoved(answer?.moved);
            chosen.clear();
          }}
        />
      )}
    </>
  );
}

function SkidList({ version, chosen }: { version: Version; chosen: ReturnType<typeof useSkidsChosen> }) {
  const choices = useChoices<'client' | 'find'>();
  const paging = usePaging(choices.key);
  const [clientId, find] = [choices.of('client'), choices.of('find')];
  const narrowed = { ...(clientId && { clientId }), ...(find && { find }), ...(paging.cursor && { cursor: paging.cursor }) };
  const fleet = query.useQuery('get', '/api/fleet', { params: { query: { limit: paging.limit, ...narrowed } } }, { placeholderData: (before) => before });
  const followers = new Set(version.skids.map(({ id }) => id));
  const columns: readonly Column<Schemas['FleetSkidView']>[] = [
    {
      name: said.skid,
      cell: ({ skidId, name }) => (
        <label className="tick">
          <input type="checkbox" checked={chosen.ids.includes(skidId)} disabled={followers.has(skidId)} onChange={() => chosen.toggle(skidId)} />
          <span>
            {name}
            {followers.has(skidId) && <small>{said.already}</small>}
          </span>
        </label>
      ),
    },
    { name: ruleWords.site, cell: ({ siteName }) => siteName },
    { name: ruleWords.client, cell: ({ clientName }) => clientName },
  ];
  return (
    <>
      <div className="tools no-print">
        <FindBox value={find ?? ''} onFind={(text) => choices.choose('find', text)} />
        <ClientChoice value={clientId} onChoose={(id) => choices.choose('client', id)} />
      </div>
      <OlderVersions version={version} onChoose={chosen.add} />
      <Loaded of={fleet} what={said.whatSkids}>
        {(list) => (
          <>
            <p role="status" className="count">
              {words.fleet.count(number(list.total))}
            </p>
            {list.items.length === 0 ? (
              <Empty title={said.noMatch}>{words.clearFilter}</Empty>
            ) : (
              <>
                <div className="row">
                  <button type="button" onClick={() => chosen.add(list.items.map(({ skidId }) => skidId).filter((id) => !followers.has(id)))}>
                    {said.chooseShown}
                  </button>
                </div>
                <Sheet caption={said.whatSkids} columns={columns} rows={list.items} keyOf={({ skidId }) => skidId} />
              </>
            )}
            <Pager paging={paging} list={list} what={said.whatSkids} />
          </>
        )}
      </Loaded>
    </>
  );
}

/** Chooses at once all that follow another version of the same set. */
function OlderVersions({ version, onChoose }: { version: Version; onChoose: (ids: readonly string[]) => void }) {
  const { call, isBusy, problem } = useCall();
  const set = query.useQuery('get', '/api/rule-sets/{id}', { params: { path: { id: version.ruleSetId } } });
  const others = (set.data?.versions ?? []).filter(({ id, skids }) => id !== version.id && skids > 0);
  if (others.length === 0) return null;
  return (
    <div className="row no-print">
      <Refusal problem={problem} />
      {others.map(({ id, no, skids }) => (
        <button
          key={id}
          type="button"
          disabled={isBusy}
          onClick={() =>
            void call(
              () => api.GET('/api/rule-sets/versions/{versionId}', { params: { path: { versionId: id } } }),
              (found) => onChoose((found?.skids ?? []).map((skid) => skid.id)),
            )
          }
        >
          {said.chooseOlder(skids, no)}
        </button>
      ))}
    </div>
  );
}
