import { useState } from 'react';
import { useLocation } from 'wouter';
import { api, type Schemas } from '../api/client.js';
import { SayDialog } from '../ui/say-dialog.js';
import { ruleWords as said } from '../words/rules.js';

/** A draft is published, which says why there is one, or thrown away. */
export function VersionActions({ version: { id, no, rules, changes } }: { version: Schemas['RuleSetVersionView'] }) {
  const [, go] = useLocation();
  const [open, setOpen] = useState<'publish' | 'drop'>();
  const close = () => setOpen(undefined);
  const params = { path: { versionId: id } };
  return (
    <div className="row no-print">
      <button type="button" className="main-button" onClick={() => setOpen('publish')}>
        {said.publish}
      </button>
      <button type="button" onClick={() => setOpen('drop')}>
        {said.drop}
      </button>
      {open === 'publish' && (
        <SayDialog
          title={said.publishTitle(no)}
          button={said.publish}
          say={{ label: said.why, hint: said.whyHint, need: said.needWhy }}
          send={(note) => api.POST('/api/rule-sets/versions/{versionId}/publish', { params, body: { note } })}
          onClose={close}
        >
          <p>{said.publishText(said.rulesCount(rules.length), said.changesCount(changes.length))}</p>
        </SayDialog>
      )}
      {open === 'drop' && (
        <SayDialog
          title={said.drop}
          button={said.drop}
          send={() => api.DELETE('/api/rule-sets/versions/{versionId}', { params })}
          onDone={() => go('/rules')}
          onClose={close}
        >
          <p>{said.dropText}</p>
        </SayDialog>
      )}
    </div>
  );
}
