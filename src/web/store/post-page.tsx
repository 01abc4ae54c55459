import { useState } from 'react';
import type { Schemas } from '../api/client.js';
import { api } from '../api/client.js';
import { newUuid } from '../new-uuid.js';
import { useMay } from '../session/session.js';
import { SayDialog } from '../ui/say-dialog.js';
import { useChoices } from '../ui/use-choices.js';
import { storeWords } from '../words/store.js';
import { amount } from './amount.js';
import { PlaceCautions } from './place-cautions.js';
import { ACTIONS } from './post-body.js';
import { PostForm } from './post-form.js';
import { StoreHead } from './store-head.js';

type Post = Schemas['StockPostView'];
const said = storeWords.post;

/** Stock moved by hand, one item after the other: made for a phone and a scanner that types. */
export default function PostPage() {
  const choices = useChoices<'do'>();
  const { keepStore } = useMay();
  const action = ACTIONS.find((one) => one === choices.of('do')) ?? 'receive';
  const [done, setDone] = useState<readonly Post[]>([]);
  return (
    <>
      <StoreHead title={said.title} />
      <section className="block">
        <fieldset className="choice">
          <legend className="unseen">{said.what}</legend>
          {ACTIONS.map((one) => (
            <label key={one}>
              <input type="radio" name="action" value={one} checked={one === action} onChange={() => choices.choose('do', one)} />
              <span>{said.actions[one]}</span>
            </label>
          ))}
        </fieldset>
        <p className="hint">{said.about[action]}</p>
        <PostForm action={action} onPosted={(post) => setDone((before) => [post, ...before])} />
      </section>
      <section className="block">
        <h2>{said.doneTitle}</h2>
        <PlaceCautions placeId={done[0]?.moves[0]?.toPlaceId ?? undefined} />
        <div role="status">
          {done.length === 0 ? (
            <p className="aside">{said.nothingYet}</p>
          ) : (
            <ul className="post-done">
              {done.map((post) => (
                <Done key={post.id} post={post} mayTakeBack={keepStore} onTakenBack={() => setDone((before) => before.filter(({ id }) => id !== post.id))} />
              ))}
            </ul>
          )}
        </div>
      </section>
    </>
  );
}

function Done({ post, mayTakeBack, onTakenBack }: { post: Post; mayTakeBack: boolean; onTakenBack: () => void }) {
  const [asks, setAsks] = useState<string | null>(null);
  const kind = ACTIONS.find((one) => one === post.kind) ?? 'correct';
  const lines = post.moves.map((move) => ({
    id: move.id,
    text: said.done(amount(move.quantity, move.unit), move.itemName, said.actions[kind]),
    more: [said.between(move.fromPlaceName, move.toPlaceName), ...(move.lot === null ? [] : [`${said.lot} ${move.lot}`])].join(', '),
  }));
  const what = lines.map(({ text }) => text).join(', ');
  return (
    <li>
      <span>
        {lines.map(({ id, text, more }) => (
          <span key={id} className="line">
            {text} <small>{more}</small>
          </span>
        ))}
      </span>
      {mayTakeBack && (
        <button type="button" onClick={() => setAsks(newUuid())}>
          {said.takeBack}
          <span className="unseen"> {what}</span>
        </button>
      )}
      {asks !== null && (
        <SayDialog
          title={said.takeBackOf(what)}
          button={said.takeBack}
          say={{ label: said.takeBackSay, need: said.takeBackNeed }}
          send={(note) =>
            api.POST('/api/stock/posts/{id}/reverse', { params: { path: { id: post.id } }, body: { id: asks, at: new Date().toISOString(), note } })
          }
          onDone={onTakenBack}
          onClose={() => setAsks(null)}
        >
          <p>{said.takeBackWhy}</p>
        </SayDialog>
      )}
    </li>
  );
}
