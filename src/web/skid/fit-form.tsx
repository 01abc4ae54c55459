import { useState } from 'react';
import { api, query, type Schemas } from '../api/client.js';
import type { RecordField } from '../registry/record-fields.js';
import { RecordForm } from '../registry/record-form.js';
import { fromLocalField, toLocalField } from '../site-time.js';
import { words } from '../words.js';

/** Writes down that a part was fitted; what was there before is removed with its reason. */
export function FitForm({ position, timeZone }: { position: Schemas['PositionView']; timeZone: string }) {
  const [now] = useState(() => toLocalField(Date.now(), timeZone));
  const items = query.useQuery('get', '/api/items', { params: { query: { limit: 200 } } });
  if (items.data === undefined) return null;
  const fields: readonly RecordField[] = [
    {
      name: 'itemId',
      label: words.parts.item,
      required: true,
      options: [{ value: '', label: words.choose }, ...items.data.items.map(({ id, name, code }) => ({ value: id, label: `${name} (${code})` }))],
    },
    { name: 'serialNumber', label: words.parts.serialNumber, empty: 'left out' },
    { name: 'lot', label: words.parts.lotNumber, empty: 'left out' },
    { name: 'setCount', label: words.parts.setCount, hint: words.parts.setCountHint, type: 'number', empty: 'left out' },
    { name: 'at', label: words.parts.at, type: 'time', required: true, start: now },
    ...(position.fitted === null ? [] : [{ name: 'removalReason', label: words.parts.whyRemoved, hint: words.parts.whyHint, required: true as const }]),
  ];
  return (
    <>
      <h3>{position.fitted === null ? words.parts.fit : words.parts.replace}</h3>
      <RecordForm
        fields={fields}
        button={words.parts.fitButton}
        send={({ at, ...body }: Schemas['FitPartDto']) =>
          api.POST('/api/positions/{id}/fittings', {
            params: { path: { id: position.id } },
            body: { ...body, at: fromLocalField(at ?? '', timeZone)?.toISOString() ?? '' },
          })
        }
      />
    </>
  );
}
