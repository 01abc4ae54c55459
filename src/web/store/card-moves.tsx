import { useState } from 'react';
import { Link } from 'wouter';
import { api, query, type Schemas } from '../api/client.js';
import { moment } from '../format.js';
import { newUuid } from '../new-uuid.js';
import { useMay } from '../session/session.js';
import { FEW_ROWS, Pager, usePaging } from '../ui/paging.js';
import { SayDialog } from '../ui/say-dialog.js';
import { type Column, Sheet } from '../ui/sheet.js';
import { Loaded } from '../ui/states.js';
import { cardWords } from '../words/stock-card.js';
import { storeWords } from '../words/store.js';
import { amount } from './amount.js';

type Move = Schemas['StockMoveView'];
const said = cardWords.moves;
const zone = () => Intl.DateTimeFormat().resolvedOptions().timeZone;

const COLUMNS: readonly Column<Move>[] = [
  { name: said.at, cell: ({ at }) => moment(at, zone()) },
  {
    name: said.kind,
    cell: ({ kind, jobId, correction, lot, serialNumber }) => (
      <>
        {jobId === null ? said.kinds[kind] : <Link href={`/jobs/${jobId}`}>{said.kinds[kind]}</Link>}
        {correction && <small>{said.correction}</small>}
        {lot !== null && <small>{`${storeWords.post.lot} ${lot}`}</small>}
        {serialNumber !== null && <small>{serialNumber}</small>}
      </>
    ),
  },
  { name: said.from, cell: ({ fromPlaceName }) => fromPlaceName ?? said.outside },
  { name: said.to, cell: ({ toPlaceName }) => toPlaceName ?? said.outside },
  { name: said.quantity, numeric: true, cell: ({ quantity, unit }) => amount(quantity, unit) },
  { name: said.by, cell: ({ by }) => by },
  { name: said.note, wide: true, cell: ({ note }) => note },
];
/** Others belong to work that posts them, and are taken back there. */
const BY_HAND: readonly Move['kind'][] = ['receive', 'transfer', 'return', 'consume', 'scrap', 'correct'];
const TAKE_BACK: Column<Move> = {
  name: said.takeBack,
  cell: (move) => (BY_HAND.includes(move.kind) && move.jobId === null ? <TakeBack move={move} /> : null),
};

/** The ledger of one item. */
export function CardMoves({ itemId }: { itemId: string }) {
  const { keepStore } = useMay();
  const paging = usePaging(itemId, FEW_ROWS);
  const asked = { itemId, limit: paging.limit, ...(paging.cursor && { cursor: paging.cursor }) };
  const moves = query.useQuery('get', '/api/stock/moves', { params: { query: asked } }, { placeholderData: (before) => before });
  return (
    <section className="block">
      <h2>{said.title}</h2>
      <Loaded of={moves} what={said.what}>
        {(list) =>
          list.items.length === 0 ? (
            <p className="aside">{said.none}</p>
          ) : (
            <>
              <Sheet caption={said.caption} columns={keepStore ? [...COLUMNS, TAKE_BACK] : COLUMNS} rows={list.items} keyOf={({ id }) => id} />
              <Pager paging={paging} list={list} what={said.what} />
            </>
          )
        }
      </Loaded>
    </section>
  );
}

function TakeBack({ move }: { move: Move }) {
  const [id, setId] = useState<string | null>(null);
  const what = `${said.kinds[move.kind]}, ${amount(move.quantity, move.unit)}, ${moment(move.at, zone())}`;
  const { post } = storeWords;
  return (
    <>
      <button type="button" className="no-print" onClick={() => setId(newUuid())}>
        {said.takeBack}
        <span className="unseen"> {what}</span>
      </button>
      {id !== null && (
        <SayDialog
          title={post.takeBackOf(what)}
          button={post.takeBack}
          say={{ label: post.takeBackSay, need: post.takeBackNeed }}
          send={(note) =>
            api.POST('/api/stock/posts/{id}/reverse', { params: { path: { id: move.postId } }, body: { id, at: new Date().toISOString(), note } })
          }
          onClose={() => setId(null)}
        >
          <p>{post.takeBackWhy}</p>
        </SayDialog>
      )}
    </>
  );
}
