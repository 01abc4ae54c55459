import { useState } from 'react';
import { api, type Schemas } from '../api/client.js';
import type { RecordField } from '../registry/record-fields.js';
import { RecordForm } from '../registry/record-form.js';
import { toLocalField } from '../site-time.js';
import { registryWords } from '../words/registry.js';
import { words } from '../words.js';

const { events } = words;
const KINDS = [
  { value: 'CEB', label: events.ceb },
  { value: 'CIP', label: events.cip },
];

/** The time that most entries are about: now, by the clocks at the site. */
function useAtField(timeZone: string): RecordField {
  const [start] = useState(() => toLocalField(Date.now(), timeZone));
  return { name: 'at', label: words.readings.at, hint: words.events.atHint(timeZone), type: 'time', required: true, start };
}

export function CleanForm({ skidId, timeZone }: { skidId: string; timeZone: string }) {
  const at = useAtField(timeZone);
  return (
    <RecordForm
      fields={[
        { name: 'kind', label: registryWords.fields.kind, options: KINDS, start: 'CEB' },
        at,
        { name: 'chemical', label: registryWords.fields.chemical, required: true },
        { name: 'strengthMgL', label: events.strength, type: 'number', empty: 'left out' },
        { name: 'contactMinutes', label: events.contact, type: 'number', empty: 'left out' },
        { name: 'note', label: words.readings.note, type: 'lines' },
      ]}
      button={words.parts.fitButton}
      send={(body: Schemas['CleanDto']) => api.POST('/api/skids/{skidId}/cleans', { params: { path: { skidId } }, body: { ...body, replaceDiffering: false } })}
    />
  );
}

export function WorkForm({ skidId, timeZone }: { skidId: string; timeZone: string }) {
  const at = useAtField(timeZone);
  return (
    <RecordForm
      fields={[
        { name: 'task', label: events.task, required: true },
        at,
        { name: 'minutes', label: events.minutes, type: 'number', empty: 'left out' },
        { name: 'note', label: words.readings.note, type: 'lines' },
      ]}
      button={words.parts.fitButton}
      send={(body: Schemas['ServiceEntryDto']) =>
        api.POST('/api/skids/{skidId}/service-entries', { params: { path: { skidId } }, body: { ...body, replaceDiffering: false } })
      }
    />
  );
}
