import '../styles/upkeep.css';
import { useQueryClient } from '@tanstack/react-query';
import { api, type Schemas } from '../api/client.js';
import { Dialog } from '../ui/dialog.js';
import { Field } from '../ui/field.js';
import { Trouble } from '../ui/trouble.js';
import { useEntries } from '../ui/use-entries.js';
import { useRequestKey } from '../ui/use-request-key.js';
import { skidRuleWords as said } from '../words/skid-rules.js';
import { words } from '../words.js';
import { checkOverride, OVERRIDABLE, type OverrideField, overrideBody, overrideStart } from './override-entries.js';

interface OverrideProps {
  readonly skidId: string;
  readonly effective: Schemas['EffectiveRuleView'];
}

/** Other limits for one rule at this skid, or that it does not hold here, with the reason. */
export function OverrideDialog({ onClose, ...rest }: OverrideProps & { onClose: () => void }) {
  return (
    <Dialog title={said.overrideTitle(rest.effective.rule.task)} onClose={onClose}>
      {(close) => <OverrideForm {...rest} close={close} />}
    </Dialog>
  );
}

function OverrideForm({ skidId, effective, close }: OverrideProps & { close: () => void }) {
  const client = useQueryClient();
  const keyOf = useRequestKey();
  const { rule, positionId, positionName, inWords } = effective;
  const form = useEntries<OverrideField, unknown>({
    start: overrideStart(effective),
    check: checkOverride,
    send: (entries) => {
      const body = overrideBody(rule, entries);
      return api.POST('/api/skids/{id}/rules/overrides', { params: { path: { id: skidId }, header: keyOf(body) }, body });
    },
    onDone: () => {
      close();
      void client.invalidateQueries();
    },
  });
  const limits = rule.positionKind === 'skid' ? (['days', 'graceDays'] as const) : OVERRIDABLE;
  return (
    <form noValidate onSubmit={form.submit}>
      <Trouble troubles={form.troubles} attempt={form.attempt} />
      <p>{said.ruleSays(inWords)}</p>
      {positionId !== null && (
        <Field {...form.field('where')} label={said.where}>
          {(props) => (
            <select {...props} {...form.control('where')}>
              <option value={positionId}>{said.hereOnly(positionName)}</option>
              <option value="">{said.everyPlace(rule.positionKind)}</option>
            </select>
          )}
        </Field>
      )}
      <Field {...form.field('off')} label={said.differs}>
        {(props) => (
          <select {...props} {...form.control('off')}>
            <option value="no">{said.otherLimits}</option>
            <option value="yes">{said.off}</option>
          </select>
        )}
      </Field>
      {form.entries.off !== 'yes' && (
        <fieldset className="group">
          <legend>{said.otherLimits}</legend>
          <p className="hint">{said.limitsHint}</p>
          <div className="fields">
            {limits.map((name) => (
              <Field key={name} {...form.field(name)} label={said[name]} hint={name === 'graceDays' ? said.graceHint : undefined}>
                {(props) => <input {...props} {...form.control(name)} inputMode="decimal" autoComplete="off" />}
              </Field>
            ))}
          </div>
        </fieldset>
      )}
      <Field {...form.field('reason')} label={said.reason} hint={said.reasonHint}>
        {(props) => <textarea {...props} {...form.control('reason')} rows={2} maxLength={1000} />}
      </Field>
      <div className="row">
        <button type="submit" className="main-button" disabled={form.isSending}>
          {said.save}
        </button>
        <button type="button" onClick={close}>
          {words.cancel}
        </button>
      </div>
    </form>
  );
}
