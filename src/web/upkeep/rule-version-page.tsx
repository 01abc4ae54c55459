import '../styles/plan.css';
import '../styles/upkeep.css';
import { useState } from 'react';
import { Link } from 'wouter';
import { api, query, type Schemas } from '../api/client.js';
import { ifMatch } from '../api/if-match.js';
import { day } from '../format.js';
import { useMay } from '../session/session.js';
import { PageHead } from '../ui/page-head.js';
import { SayDialog } from '../ui/say-dialog.js';
import { Empty, Loaded } from '../ui/states.js';
import { ruleWords as said } from '../words/rules.js';
import { words } from '../words.js';
import { RuleDialog } from './rule-dialog.js';
import type { Rule } from './rule-entries.js';
import { RuleList } from './rule-list.js';
import { VersionActions } from './version-actions.js';
import { VersionChanges } from './version-changes.js';
import { VersionFollowers } from './version-followers.js';

type Version = Schemas['RuleSetVersionView'];

/** The rules of one version, what differs from the version before, and which skids follow it. A draft is changed here. */
export default function RuleVersionPage({ versionId }: { versionId: string }) {
  const version = query.useQuery('get', '/api/rule-sets/versions/{versionId}', { params: { path: { versionId } } });
  return (
    <Loaded of={version} what={said.whatVersion}>
      {(found) => <OneVersion version={found} />}
    </Loaded>
  );
}

const onDay = (at: string) => day(at.slice(0, 10));

function OneVersion({ version }: { version: Version }) {
  const may = useMay();
  const { publishedAt, publishedBy, createdAt, createdBy } = version;
  const mayEdit = publishedAt === null && may.manage;
  const state = publishedAt === null ? said.draftFrom(onDay(createdAt), createdBy) : said.published(onDay(publishedAt), publishedBy ?? '');
  return (
    <>
      <PageHead
        over={<Link href="/rules">{words.places.rules}</Link>}
        title={said.named(version.ruleSetName, version.no)}
        facts={[{ name: said.version, value: state }]}
      >
        {version.note !== '' && <p>{version.note}</p>}
        {publishedAt === null && <p className="hint">{said.draftNote}</p>}
      </PageHead>
      {mayEdit && <VersionActions version={version} />}
      <VersionChanges no={version.no} changes={version.changes} />
      <Rules version={version} mayEdit={mayEdit} />
      <VersionFollowers version={version} />
    </>
  );
}

function Rules({ version, mayEdit }: { version: Version; mayEdit: boolean }) {
  const [open, setOpen] = useState<{ readonly what: 'new' } | { readonly what: 'change' | 'remove'; readonly rule: Rule }>();
  const close = () => setOpen(undefined);
  const { rules } = version;
  const shared = { home: { ruleSetVersionId: version.id }, others: rules, onClose: close };
  return (
    <section className="block">
      <div className="block-head">
        <h2>{said.rules}</h2>
        {mayEdit && (
          <button type="button" onClick={() => setOpen({ what: 'new' })}>
            {said.add}
          </button>
        )}
      </div>
      {rules.length === 0 ? (
        <Empty title={said.noRules}>{mayEdit ? said.noRulesManager : said.noRulesOther}</Empty>
      ) : (
        <RuleList
          rules={rules}
          {...(mayEdit && {
            actions: (rule: Rule) => (
              <span className="side-by-side">
                <button type="button" onClick={() => setOpen({ what: 'change', rule })}>
                  {said.change} <span className="unseen">{rule.task}</span>
                </button>
                <button type="button" onClick={() => setOpen({ what: 'remove', rule })}>
                  {said.remove} <span className="unseen">{rule.task}</span>
                </button>
              </span>
            ),
          })}
        />
      )}
      {open?.what === 'new' && <RuleDialog {...shared} title={said.addTitle(said.named(version.ruleSetName, version.no))} />}
      {open?.what === 'change' && <RuleDialog {...shared} title={said.changeTitle(open.rule.task)} rule={open.rule} />}
      {open?.what === 'remove' && (
        <SayDialog
          title={said.removeTitle(open.rule.task)}
          button={said.remove}
          send={() => api.DELETE('/api/rules/{id}', { params: { path: { id: open.rule.id } }, headers: ifMatch(open.rule) })}
          onClose={close}
        >
          <p>{said.removeText}</p>
        </SayDialog>
      )}
    </section>
  );
}
