import { useQueryClient } from '@tanstack/react-query';
import { useState } from 'react';
import { api, type Schemas } from '../../api/client.js';
import { ifMatch } from '../../api/if-match.js';
import { newUuid } from '../../new-uuid.js';
import { Dialog } from '../../ui/dialog.js';
import { Field } from '../../ui/field.js';
import { Trouble } from '../../ui/trouble.js';
import { useEntries } from '../../ui/use-entries.js';
import { travelWords as said } from '../../words/travel.js';
import { words } from '../../words.js';
import { PlaceOptions } from './place-options.js';
import type { Places } from './places.js';
import { byHandBody, byHandStart, checkByHand } from './travel-fields.js';

interface ByHandProps {
  /** One that is there, or what a new one begins with */
  readonly way: Partial<Schemas['TravelOverrideView']>;
  readonly places: Places;
  readonly onClose: () => void;
}

/** Sets how long a way takes, or changes it. */
export function ByHandDialog({ onClose, ...about }: ByHandProps) {
  return (
    <Dialog title={about.way.id === undefined ? said.addByHand : said.changeByHand} onClose={onClose}>
      {(close) => <ByHandForm {...about} close={close} />}
    </Dialog>
  );
}

function ByHandForm({ way, places, close }: Omit<ByHandProps, 'onClose'> & { close: () => void }) {
  const client = useQueryClient();
  const [id] = useState(() => way.id ?? newUuid());
  const form = useEntries({
    start: byHandStart(way),
    check: checkByHand,
    send: (entries) =>
      api.PUT('/api/planning/travel/overrides/{id}', { params: { path: { id } }, headers: ifMatch({ version: way.version ?? 0 }), body: byHandBody(entries) }),
    onDone: () => {
      close();
      void client.invalidateQueries();
    },
  });
  return (
    <form noValidate onSubmit={form.submit}>
      <Trouble troubles={form.troubles} attempt={form.attempt} />
      <div className="fields">
        {(['fromId', 'toId'] as const).map((end) => (
          <Field key={end} {...form.field(end)} label={end === 'fromId' ? said.from : said.to}>
            {(props) => (
              <select {...props} {...form.control(end)}>
                <PlaceOptions {...places} />
              </select>
            )}
          </Field>
        ))}
        <Field {...form.field('minutes')} label={said.minutes}>
          {(props) => <input {...props} {...form.control('minutes')} className="short" inputMode="numeric" autoComplete="off" />}
        </Field>
        <Field {...form.field('km')} label={said.km}>
          {(props) => <input {...props} {...form.control('km')} className="short" inputMode="decimal" autoComplete="off" />}
        </Field>
      </div>
      <label className="tick">
        <input
          type="checkbox"
          checked={form.entries.bothWays === 'yes'}
          onChange={({ target }) => form.setEntries((before) => ({ ...before, bothWays: target.checked ? 'yes' : '' }))}
        />
        <span>{said.direction}</span>
      </label>
      <Field {...form.field('note')} label={said.why} hint={said.whyHint}>
        {(props) => <input {...props} {...form.control('note')} autoComplete="off" />}
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
