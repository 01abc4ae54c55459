import { useQueryClient } from '@tanstack/react-query';
import { type ReactNode, useEffect, useRef, useState } from 'react';
import { api, type Schemas } from '../api/client.js';
import { day } from '../format.js';
import { newUuid } from '../new-uuid.js';
import { useMay, useSession } from '../session/session.js';
import { siteToday } from '../site-time.js';
import { Field } from '../ui/field.js';
import { Trouble } from '../ui/trouble.js';
import { useEntries } from '../ui/use-entries.js';
import { storeWords } from '../words/store.js';
import { words } from '../words.js';
import type { ChosenItem } from './find-item.js';
import { ItemField } from './item-field.js';
import { type Action, asksOwner, checkPost, endsOf, needsNote, type PostEntries, type PostField, postBody } from './post-body.js';
import { useOwners } from './use-owners.js';
import { placeOptions, usePlaces } from './use-places.js';

const said = storeWords.post;
const START: PostEntries = {
  fromPlaceId: '',
  toPlaceId: '',
  direction: 'more',
  item: '',
  quantity: '',
  lot: '',
  owner: '',
  expiresOn: '',
  unitCost: '',
  note: '',
  wrongCount: '',
  expiredReason: '',
};

/** One entry after the other: the places stay, the item goes, and the field that the scanner types into has the focus again. */
export function PostForm({ action, onPosted }: { action: Action; onPosted: (post: Schemas['StockPostView']) => void }) {
  const client = useQueryClient();
  const places = usePlaces();
  const itemInput = useRef<HTMLInputElement>(null);
  const [chosen, setChosen] = useState<ChosenItem | null>(null);
  const entered = useRef<{ text: string; id: string; at: string }>(undefined);
  const form = useEntries<PostField, Schemas['StockPostView']>({
    start: START,
    check: (entries) => checkPost(action, entries, chosen),
    fieldAt: (pointer) => {
      const field = pointer.split('/').at(-1) ?? '';
      if (field === 'ownerId') return 'owner';
      return field === 'itemId' || field === 'partId' ? 'item' : field;
    },
    send: (entries) => {
      if (chosen === null) throw new Error('checked before');
      const body = postBody(action, entries, chosen);
      const text = JSON.stringify(body);
      // Sent again unchanged, it is the same entry; the next one has another id.
      if (entered.current?.text !== text) entered.current = { text, id: newUuid(), at: new Date().toISOString() };
      const { id, at } = entered.current;
      return api.POST('/api/stock/posts', { body: { id, at, ...body } });
    },
    onDone: (post) => {
      entered.current = undefined;
      if (post !== undefined) onPosted(post);
      setChosen(null);
      form.setEntries((before) => ({
        ...START,
        fromPlaceId: before.fromPlaceId,
        toPlaceId: before.toPlaceId,
        direction: before.direction,
        owner: before.owner,
      }));
      itemInput.current?.focus();
      void client.invalidateQueries();
    },
  });
  // A storekeeper works from the store, a technician from their van.
  const { id: me, role } = useSession();
  const { keepStore } = useMay();
  const asksWhose = keepStore && asksOwner(action, form.entries);
  const owners = useOwners(asksWhose);
  const usual = places.find(({ kind, personId }) => (role === 'technician' ? personId === me : kind === 'store'))?.id;
  const setEntries = form.setEntries;
  useEffect(() => {
    if (usual !== undefined)
      setEntries((before) =>
        before.fromPlaceId + before.toPlaceId === ''
          ? { ...before, [action === 'receive' || action === 'return' ? 'toPlaceId' : 'fromPlaceId']: usual }
          : before,
      );
  }, [usual, action, setEntries]);
  const onChosen = (item: ChosenItem | null) => {
    setChosen(item);
    if (item === null) return;
    form.setEntries((before) => ({ ...before, quantity: item.quantity, lot: item.lot, expiresOn: item.expiresOn }));
    document.getElementById(form.field('quantity').id)?.focus();
  };
  const { from, to } = endsOf(action, form.entries);
  const usable = action === 'consume' ? places.filter(({ kind }) => kind === 'site') : places.filter(({ kind }) => kind !== 'transit' && kind !== 'repair');
  const wasShort = form.field('quantity').problem !== undefined && from;
  const isPast = chosen !== null && chosen.expiresOn !== '' && chosen.expiresOn < siteToday(Date.now(), Intl.DateTimeFormat().resolvedOptions().timeZone);
  const text = (name: PostField, label: string, more: { hint?: string; decimal?: true; type?: 'date' } = {}): ReactNode => (
    <Field {...form.field(name)} label={label} hint={more.hint}>
      {(props) => <input {...props} {...form.control(name)} type={more.type ?? 'text'} inputMode={more.decimal ? 'decimal' : undefined} autoComplete="off" />}
    </Field>
  );
  const choose = (name: PostField, label: string, options: readonly { value: string; label: string }[]): ReactNode => (
    <Field {...form.field(name)} label={label}>
      {(props) => (
        <select {...props} {...form.control(name)}>
          {options.map((option) => (
            <option key={option.value} value={option.value}>
              {option.label}
            </option>
          ))}
        </select>
      )}
    </Field>
  );
  const choosePlace = (name: 'fromPlaceId' | 'toPlaceId', label: string) => choose(name, label, [{ value: '', label: words.choose }, ...placeOptions(usable)]);
  return (
    <form noValidate onSubmit={form.submit}>
      <Trouble troubles={form.troubles} attempt={form.attempt} />
      <div className="fields">
        {action === 'correct' &&
          choose('direction', said.direction, [
            { value: 'more', label: said.more },
            { value: 'less', label: said.less },
          ])}
        {from && choosePlace('fromPlaceId', said.from)}
        {to && choosePlace('toPlaceId', said.to)}
      </div>
      <ItemField {...form.field('item')} input={itemInput} chosen={chosen} onChosen={onChosen} />
      {isPast && <p className="note-box">{said.expired(day(chosen.expiresOn))}</p>}
      <div className="fields">
        {text('quantity', chosen === null ? said.quantity : said.quantityIn(storeWords.unitName(chosen.unit)), { decimal: true })}
        {text('lot', said.lot, from ? { hint: said.lotHint } : {})}
        {!from && text('expiresOn', said.expiresOn, { type: 'date' })}
        {asksWhose && choose('owner', said.owner, [{ value: '', label: said.ours }, ...owners])}
        {action === 'receive' && form.entries.owner === '' && text('unitCost', said.unitCost, { decimal: true })}
        {text('note', needsNote(action) ? said.why : said.note)}
      </div>
      {wasShort && (
        <>
          <label className="tick">
            <input
              type="checkbox"
              checked={form.entries.wrongCount === 'yes'}
              onChange={({ target }) => form.setEntries((before) => ({ ...before, wrongCount: target.checked ? 'yes' : '' }))}
            />
            <span>{said.wrongCount}</span>
          </label>
          {text('expiredReason', said.expiredReason, { hint: said.expiredReasonHint })}
        </>
      )}
      <div className="row">
        <button type="submit" className="main-button" disabled={form.isSending}>
          {said.button}
        </button>
      </div>
    </form>
  );
}
