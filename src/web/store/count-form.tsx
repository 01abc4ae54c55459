import { useQueryClient } from '@tanstack/react-query';
import { useRef, useState } from 'react';
import { api, type Schemas } from '../api/client.js';
import { Field } from '../ui/field.js';
import { Trouble } from '../ui/trouble.js';
import { useEntries } from '../ui/use-entries.js';
import { useRequestKey } from '../ui/use-request-key.js';
import { countWords as said } from '../words/counts.js';
import { storeWords } from '../words/store.js';

type Line = Schemas['CountLineView'];
const isNumber = (text: string) => /^\d{1,12}(\.\d{1,6})?$/.test(text.trim().replace(',', '.'));

/** What was found of each line that still asks for a look; Enter leads to the next one. */
export function CountForm({ count }: { count: Schemas['CountDetailView'] }) {
  const client = useQueryClient();
  const keyOf = useRequestKey();
  const [notice, setNotice] = useState('');
  const asked = useRef<readonly Line[]>([]);
  const lines = count.lines.filter(({ standing }) => standing === 'open' || standing === 'off');
  const form = useEntries<string, Schemas['CountDetailView']>({
    start: Object.fromEntries(count.lines.map(({ id }) => [id, ''])),
    check: (entries) => {
      setNotice('');
      const wrong = lines.filter(({ id }) => (entries[id] ?? '').trim() !== '' && !isNumber(entries[id] ?? ''));
      const first = lines.every(({ id }) => (entries[id] ?? '').trim() === '') ? lines.slice(0, 1) : [];
      return Object.fromEntries([...wrong, ...first].map(({ id }) => [id, said.empty]));
    },
    fieldAt: (pointer) => asked.current[Number(pointer.split('/')[2])]?.id ?? pointer,
    send: (entries) => {
      asked.current = lines.filter(({ id }) => (entries[id] ?? '').trim() !== '');
      const body = { looks: asked.current.map(({ id }) => ({ lineId: id, counted: (entries[id] ?? '').trim().replace(',', '.') })) };
      // A second look may find the same again: it is another entry.
      const looks = asked.current.map((line) => line.looks);
      return api.POST('/api/counts/{id}/looks', { params: { path: { id: count.id }, header: keyOf({ ...body, looks }) }, body });
    },
    onDone: () => {
      setNotice(said.saved);
      form.setEntries(Object.fromEntries(count.lines.map(({ id }) => [id, ''])));
      void client.invalidateQueries();
    },
  });
  if (lines.length === 0) return <p className="aside">{said.allDone}</p>;
  return (
    <form noValidate onSubmit={form.submit} className="no-print">
      <Trouble troubles={form.troubles} attempt={form.attempt} />
      <div className="fields">
        {lines.map(({ id, itemName, itemCode, lot, serialNumber, unit, standing }) => (
          <Field
            key={id}
            {...form.field(id)}
            label={said.foundOf(itemName, storeWords.unitName(unit))}
            hint={[itemCode, lot, serialNumber, standing === 'off' ? said.standings.off : null].filter((one) => one !== null).join(', ')}
          >
            {(props) => <input {...props} {...form.control(id)} inputMode="decimal" autoComplete="off" />}
          </Field>
        ))}
      </div>
      <div className="row">
        <button type="submit" className="main-button" disabled={form.isSending}>
          {said.save}
        </button>
        <span role="status" className="hint">
          {notice}
        </span>
      </div>
    </form>
  );
}
