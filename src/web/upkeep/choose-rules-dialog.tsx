import { useId, useState } from 'react';
import { query, type Schemas } from '../api/client.js';
import { Dialog } from '../ui/dialog.js';
import { Field } from '../ui/field.js';
import { ruleWords } from '../words/rules.js';
import { skidRuleWords as said } from '../words/skid-rules.js';
import { words } from '../words.js';
import { FollowPreview } from './follow-dialog.js';

interface ChooseProps {
  readonly skidId: string;
  readonly follows: Schemas['FollowedVersionView'] | null;
}

const NONE = 'none';

/** One of the published versions, or none any more; what becomes of the due list is shown as soon as one is chosen. */
export function ChooseRulesDialog({ onClose, ...rest }: ChooseProps & { onClose: () => void }) {
  return (
    <Dialog title={said.otherTitle} onClose={onClose}>
      {(close) => <ChooseRules {...rest} close={close} />}
    </Dialog>
  );
}

function ChooseRules({ skidId, follows, close }: ChooseProps & { close: () => void }) {
  const id = useId();
  const [chosen, setChosen] = useState('');
  const sets = query.useQuery('get', '/api/rule-sets', { params: { query: {} } });
  const options = (sets.data ?? []).flatMap(({ name, versions }) => {
    const newest = versions.find(({ publishedAt }) => publishedAt !== null);
    return newest === undefined || newest.id === follows?.versionId ? [] : [{ value: newest.id, label: ruleWords.named(name, newest.no) }];
  });
  return (
    <>
      <Field id={id} label={said.ruleSet}>
        {(props) => (
          <select {...props} value={chosen} onChange={({ target }) => setChosen(target.value)}>
            <option value="">{words.choose}</option>
            {options.map(({ value, label }) => (
              <option key={value} value={value}>
                {label}
              </option>
            ))}
            {follows !== null && <option value={NONE}>{said.noneAnyMore}</option>}
          </select>
        )}
      </Field>
      {chosen === '' ? (
        <div className="row">
          <button type="button" onClick={close}>
            {words.cancel}
          </button>
        </div>
      ) : (
        <FollowPreview key={chosen} versionId={chosen === NONE ? null : chosen} skidIds={[skidId]} close={close} />
      )}
    </>
  );
}
