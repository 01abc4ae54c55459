import { useQueryClient } from '@tanstack/react-query';
import { useRef, useState } from 'react';
import { api } from '../api/client.js';
import { Field } from '../ui/field.js';
import { Opened } from '../ui/opened.js';
import { Trouble } from '../ui/trouble.js';
import { useEntries } from '../ui/use-entries.js';
import { useRequestKey } from '../ui/use-request-key.js';
import { countWords as said } from '../words/counts.js';
import { storeWords } from '../words/store.js';
import type { ChosenItem } from './find-item.js';
import { ItemField } from './item-field.js';

/** Found at the place, and not on the list. */
export function CountExtra({ countId }: { countId: string }) {
  return (
    <Opened summary={said.extra} what={said.extra}>
      <ExtraForm countId={countId} />
    </Opened>
  );
}

function ExtraForm({ countId }: { countId: string }) {
  const client = useQueryClient();
  const keyOf = useRequestKey();
  const input = useRef<HTMLInputElement>(null);
  const [chosen, setChosen] = useState<ChosenItem | null>(null);
  const form = useEntries({
    start: { item: '', lot: '', counted: '' },
    check: ({ counted }) => ({
      ...(chosen === null ? { item: storeWords.post.needItem } : {}),
      ...(/^\d{1,12}([.,]\d{1,6})?$/.test(counted.trim()) ? {} : { counted: said.empty }),
    }),
    send: ({ lot, counted }) => {
      if (chosen === null) throw new Error('checked before');
      const look = { itemId: chosen.itemId, lot: lot.trim() === '' ? null : lot.trim(), counted: counted.trim().replace(',', '.') };
      const body = { looks: [look] };
      return api.POST('/api/counts/{id}/looks', { params: { path: { id: countId }, header: keyOf(body) }, body });
    },
    onDone: () => {
      setChosen(null);
      form.setEntries({ item: '', lot: '', counted: '' });
      input.current?.focus();
      void client.invalidateQueries();
    },
  });
  const onChosen = (item: ChosenItem | null) => {
    setChosen(item);
    if (item !== null) form.setEntries((before) => ({ ...before, lot: item.lot }));
  };
  return (
    <form noValidate onSubmit={form.submit}>
      <Trouble troubles={form.troubles} attempt={form.attempt} />
      <ItemField {...form.field('item')} input={input} chosen={chosen} onChosen={onChosen} />
      <div className="fields">
        <Field {...form.field('lot')} label={storeWords.post.lot}>
          {(props) => <input {...props} {...form.control('lot')} autoComplete="off" />}
        </Field>
        <Field {...form.field('counted')} label={said.quantity}>
          {(props) => <input {...props} {...form.control('counted')} inputMode="decimal" autoComplete="off" />}
        </Field>
      </div>
      <div className="row">
        <button type="submit" className="main-button" disabled={form.isSending}>
          {said.extraAdd}
        </button>
      </div>
    </form>
  );
}
