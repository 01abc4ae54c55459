import '../styles/upkeep.css';
import { useState } from 'react';
import { Link } from 'wouter';
import { query, type Schemas } from '../api/client.js';
import { useMay } from '../session/session.js';
import { PageHead } from '../ui/page-head.js';
import { Loaded } from '../ui/states.js';
import { ruleWords } from '../words/rules.js';
import { skidRuleWords as said } from '../words/skid-rules.js';
import { words } from '../words.js';
import { ChooseRulesDialog } from './choose-rules-dialog.js';
import { EffectiveRules } from './effective-rules.js';
import { FollowDialog } from './follow-dialog.js';
import { OverrideList } from './override-list.js';

type SkidRules = Schemas['SkidRulesView'];

/** Which rules hold at one skid, where each comes from, and what is different here. */
export default function SkidRulesPage({ skidId }: { skidId: string }) {
  const skid = query.useQuery('get', '/api/skids/{id}', { params: { path: { id: skidId } } });
  const rules = query.useQuery('get', '/api/skids/{id}/rules', { params: { path: { id: skidId } } });
  return (
    <Loaded of={skid} what={words.skid.what}>
      {({ name }) => (
        <Loaded of={rules} what={said.what}>
          {(found) => <Rules name={name} found={found} />}
        </Loaded>
      )}
    </Loaded>
  );
}

function Rules({ name, found }: { name: string; found: SkidRules }) {
  const may = useMay();
  const { skidId, follows } = found;
  const value = follows === null ? said.none : <Link href={`/rules/${follows.versionId}`}>{ruleWords.named(follows.ruleSetName, follows.no)}</Link>;
  return (
    <>
      <PageHead over={<Link href={`/skids/${skidId}`}>{name}</Link>} title={said.title(name)} facts={[{ name: said.follows, value }]}>
        {follows?.newerNo != null && <p>{said.newer(follows.newerNo)}</p>}
      </PageHead>
      {may.manage && <Following found={found} />}
      <EffectiveRules name={name} found={found} mayEdit={may.manage} />
      <OverrideList skidId={skidId} overrides={found.overrides} mayEdit={may.manage} />
    </>
  );
}

function Following({ found: { skidId, follows } }: { found: SkidRules }) {
  const [open, setOpen] = useState<'newer' | 'other'>();
  const close = () => setOpen(undefined);
  const newer = follows !== null && follows.newerVersionId !== null && follows.newerNo !== null ? { id: follows.newerVersionId, no: follows.newerNo } : null;
  return (
    <div className="row no-print">
      {newer !== null && (
        <button type="button" className="main-button" onClick={() => setOpen('newer')}>
          {said.moveToNewer(newer.no)}
        </button>
      )}
      <button type="button" onClick={() => setOpen('other')}>
        {follows === null ? said.first : said.other}
      </button>
      {open === 'newer' && newer !== null && follows !== null && (
        <FollowDialog title={said.previewTitle(ruleWords.named(follows.ruleSetName, newer.no))} versionId={newer.id} skidIds={[skidId]} onClose={close} />
      )}
      {open === 'other' && <ChooseRulesDialog skidId={skidId} follows={follows} onClose={close} />}
    </div>
  );
}
