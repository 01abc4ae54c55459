import { useState } from 'react';
import { Link } from 'wouter';
import { query, type Schemas } from '../api/client.js';
import { day, moment, number } from '../format.js';
import { useMay } from '../session/session.js';
import { Choice } from '../ui/choice.js';
import { Dialog } from '../ui/dialog.js';
import { FindBox } from '../ui/find-box.js';
import { Pager, usePaging } from '../ui/paging.js';
import { type Column, Sheet } from '../ui/sheet.js';
import { Empty, Loaded } from '../ui/states.js';
import { useChoices } from '../ui/use-choices.js';
import { repairWords as said } from '../words/repairs.js';
import { RepairBack } from './repair-back.js';
import { RepairSend } from './repair-send.js';
import { StoreHead } from './store-head.js';

type Repair = Schemas['RepairView'];
const zone = () => Intl.DateTimeFormat().resolvedOptions().timeZone;

const COLUMNS: readonly Column<Repair>[] = [
  {
    name: said.part,
    cell: ({ itemId, itemName, serialNumber }) => (
      <>
        <Link href={`/stock/items/${itemId}`}>{itemName}</Link>
        <small>{said.serial(serialNumber)}</small>
      </>
    ),
  },
  {
    name: said.where,
    cell: ({ repairPlaceName, fromPlaceName }) => (
      <>
        {repairPlaceName}
        <small>{said.from(fromPlaceName)}</small>
      </>
    ),
  },
  {
    name: said.since,
    cell: ({ sentAt, sentBy }) => (
      <>
        {moment(sentAt, zone())}
        <small>{sentBy}</small>
      </>
    ),
  },
  {
    name: said.expected,
    short: true,
    cell: ({ expectedOn, late }) =>
      late ? (
        <>
          <strong>{day(expectedOn)}</strong>
          <small>{said.late}</small>
        </>
      ) : (
        day(expectedOn)
      ),
  },
  { name: said.fault, wide: true, cell: ({ fault }) => fault },
  {
    name: said.counters,
    cell: ({ counters }) => (counters.length === 0 ? said.noCounters : counters.map(({ kind, run }) => said.counter(number(run), kind)).join(', ')),
  },
  { name: said.state, cell: (repair) => <State repair={repair} /> },
];

/** What is out for repair: what, where, since when, until when, and what came of it. */
export default function RepairsPage() {
  const { keepStore } = useMay();
  const choices = useChoices<'show' | 'find'>();
  const paging = usePaging(choices.key);
  const isAll = choices.of('show') === 'all';
  const find = choices.of('find') ?? '';
  const asked = { limit: paging.limit, ...(isAll ? {} : { open: true }), ...(find === '' ? {} : { find }), ...(paging.cursor && { cursor: paging.cursor }) };
  const repairs = query.useQuery('get', '/api/repairs', { params: { query: asked } }, { placeholderData: (before) => before });
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
          <FindBox value={find} onFind={(text) => choices.choose('find', text)} hint={said.findHint} />
        </div>
        <Loaded of={repairs} what={said.what}>
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
      {keepStore && (
        <section className="block no-print">
          <h2>{said.make}</h2>
          <RepairSend />
        </section>
      )}
    </>
  );
}

function State({ repair }: { repair: Repair }) {
  const { keepStore } = useMay();
  const [isOpen, setOpen] = useState(false);
  const { itemName, serialNumber, outcome, backAt, done } = repair;
  if (outcome !== null) {
    return (
      <>
        {said.ended(said.outcomes[outcome], moment(backAt, zone()))}
        {done !== '' && <small>{done}</small>}
      </>
    );
  }
  if (!keepStore) return said.out;
  return (
    <>
      <button type="button" className="no-print" onClick={() => setOpen(true)}>
        {said.back}
        <span className="unseen"> {said.backTitle(itemName, serialNumber)}</span>
      </button>
      {isOpen && (
        <Dialog title={said.backTitle(itemName, serialNumber)} onClose={() => setOpen(false)}>
          {(close) => <RepairBack repair={repair} close={close} />}
        </Dialog>
      )}
    </>
  );
}
