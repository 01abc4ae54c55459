import { useState } from 'react';
import { query, type Schemas } from '../api/client.js';
import { day, moment } from '../format.js';
import { Choice } from '../ui/choice.js';
import { Dialog } from '../ui/dialog.js';
import { Pager, usePaging } from '../ui/paging.js';
import { type Column, Sheet } from '../ui/sheet.js';
import { Empty, Loaded } from '../ui/states.js';
import { useChoices } from '../ui/use-choices.js';
import { transferWords as said } from '../words/transfers.js';
import { amount } from './amount.js';
import { ArriveForm } from './arrive-form.js';
import { SendForm } from './send-form.js';
import { StoreHead } from './store-head.js';

type Transfer = Schemas['TransferView'];
const zone = () => Intl.DateTimeFormat().resolvedOptions().timeZone;

const COLUMNS: readonly Column<Transfer>[] = [
  { name: said.fromTo, cell: ({ fromPlaceName, toPlaceName }) => said.between(fromPlaceName, toPlaceName) },
  {
    name: said.sent,
    cell: ({ sentAt, sentBy }) => (
      <>
        {moment(sentAt, zone())}
        <small>{sentBy}</small>
      </>
    ),
  },
  { name: said.expected, short: true, cell: ({ expectedOn }) => day(expectedOn) },
  {
    name: said.goods,
    wide: true,
    cell: ({ lines, note }) => (
      <>
        {lines.map((line) => (
          <span key={[line.itemId, line.lot, line.partId, line.ownerId].join(' ')} className="line">
            {[line.itemName, line.lot, line.serialNumber].filter((one) => one !== null).join(', ')}:{' '}
            {said.arrived(amount(line.arrived, line.unit), amount(line.sent, line.unit))}
            {Number(line.lost) > 0 && `, ${said.lost(amount(line.lost, line.unit))}`}
          </span>
        ))}
        {note !== '' && <small>{note}</small>}
      </>
    ),
  },
  { name: said.state, cell: (transfer) => (transfer.endedAt === null ? <Arrive transfer={transfer} /> : said.ended(moment(transfer.endedAt, zone()))) },
];

/** Goods that left one place and are not at the other yet, and how they are sent. */
export default function TransfersPage() {
  const choices = useChoices<'show'>();
  const paging = usePaging(choices.key);
  const isAll = choices.of('show') === 'all';
  const asked = { limit: paging.limit, ...(isAll ? {} : { open: true }), ...(paging.cursor && { cursor: paging.cursor }) };
  const transfers = query.useQuery('get', '/api/transfers', { params: { query: asked } }, { placeholderData: (before) => before });
  return (
    <>
      <StoreHead title={said.title} />
      <section className="block">
        <div className="tools no-print">
          <Choice
            label={said.show}
            value={isAll ? 'all' : undefined}
            options={[{ value: 'all', label: said.all }]}
            all={said.open}
            onChoose={(value) => choices.choose('show', value)}
          />
        </div>
        <Loaded of={transfers} what={said.what}>
          {(list) =>
            list.items.length === 0 ? (
              <Empty title={said.none}>{said.noneWhy}</Empty>
            ) : (
              <>
                <Sheet caption={said.caption} columns={COLUMNS} rows={list.items} keyOf={({ id }) => id} />
                <Pager paging={paging} list={list} what={said.what} />
              </>
            )
          }
        </Loaded>
      </section>
      <section className="block no-print">
        <h2>{said.make}</h2>
        <SendForm />
      </section>
    </>
  );
}

function Arrive({ transfer }: { transfer: Transfer }) {
  const [isOpen, setOpen] = useState(false);
  const { fromPlaceName, toPlaceName } = transfer;
  return (
    <>
      <span className="line">{said.onTheWay}</span>
      <button type="button" className="no-print" onClick={() => setOpen(true)}>
        {said.arrive}
        <span className="unseen"> {said.between(fromPlaceName, toPlaceName)}</span>
      </button>
      {isOpen && (
        <Dialog title={said.arriveTitle(fromPlaceName, toPlaceName)} onClose={() => setOpen(false)}>
          {(close) => <ArriveForm transfer={transfer} close={close} />}
        </Dialog>
      )}
    </>
  );
}
