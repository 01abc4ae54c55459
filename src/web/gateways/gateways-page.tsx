import { useQueryClient } from '@tanstack/react-query';
import { useState } from 'react';
import { query, type Schemas } from '../api/client.js';
import { moment } from '../format.js';
import { PageHead } from '../ui/page-head.js';
import { Pager, usePaging } from '../ui/paging.js';
import { type Column, Sheet } from '../ui/sheet.js';
import { Empty, Loaded } from '../ui/states.js';
import { gatewayWords as said } from '../words/gateways.js';
import { words } from '../words.js';
import { KeyForm } from './key-form.js';
import { WithdrawKey } from './withdraw-key.js';

type Key = Schemas['GatewayKeyView'];

const own = Intl.DateTimeFormat().resolvedOptions().timeZone;

/** Machines at sites that send readings: which have a key, and when it was last used. */
export default function GatewaysPage() {
  const client = useQueryClient();
  const paging = usePaging('');
  const [made, setMade] = useState<{ readonly name: string; readonly key: string } | null>(null);
  const keys = query.useQuery(
    'get',
    '/api/gateway-keys',
    { params: { query: { limit: paging.limit, ...(paging.cursor === undefined ? {} : { cursor: paging.cursor }) } } },
    { placeholderData: (before) => before },
  );
  const refresh = () => void client.invalidateQueries({ queryKey: ['get', '/api/gateway-keys'] });
  const columns: readonly Column<Key>[] = [
    { name: said.machine, cell: (key) => key.name },
    { name: said.site, cell: (key) => key.siteName },
    {
      name: said.made,
      cell: (key) => (
        <>
          {moment(key.createdAt, own)}
          <small>{key.createdBy}</small>
        </>
      ),
    },
    { name: said.lastUsed, cell: (key) => (key.lastUsedAt === null ? said.never : moment(key.lastUsedAt, own)) },
    { name: said.state, cell: (key) => (key.endedAt === null ? said.valid : said.withdrawn(moment(key.endedAt, own), key.endedBy ?? words.none)) },
    {
      name: words.people.actions,
      wide: true,
      cell: (key) => (key.endedAt === null ? <WithdrawKey gateway={key} onDone={refresh} /> : words.none),
    },
  ];
  return (
    <>
      <PageHead title={said.title} />
      {made !== null && (
        <div className="note-box" role="status">
          <p>{said.keyFor(made.name)}</p>
          <p>
            <code>{made.key}</code>
          </p>
          <p className="hint">{said.keyOnce}</p>
        </div>
      )}
      <section className="block">
        <Loaded of={keys} what={said.what}>
          {(list) => (
            <>
              {list.items.length > 0 ? (
                <Sheet caption={said.title} columns={columns} rows={list.items} keyOf={(key) => key.id} />
              ) : (
                <Empty title={said.empty}>{said.emptyWhy}</Empty>
              )}
              <Pager paging={paging} list={list} what={said.what} />
            </>
          )}
        </Loaded>
      </section>
      <KeyForm
        onMade={(answer) => {
          setMade({ name: answer.gatewayKey.name, key: answer.key });
          refresh();
        }}
      />
    </>
  );
}
