import { useQueryClient } from '@tanstack/react-query';
import { useState } from 'react';
import { api, query, type Schemas } from '../api/client.js';
import { problemOf } from '../api/problem.js';
import { moment } from '../format.js';
import { Pager, usePaging } from '../ui/paging.js';
import { type Column, Sheet } from '../ui/sheet.js';
import { Empty, Loaded } from '../ui/states.js';
import { noticeWords as said } from '../words/notices.js';

type Message = Schemas['NoticeView'];

const own = Intl.DateTimeFormat().resolvedOptions().timeZone;

const COLUMNS: readonly Column<Message>[] = [
  { name: said.subject, cell: (mail) => mail.subject },
  { name: said.mailTo, cell: (mail) => mail.to },
  { name: said.made, cell: (mail) => moment(mail.createdAt, own) },
  {
    name: said.state,
    wide: true,
    cell: (mail) => (
      <>
        {said.states[mail.state]}
        {mail.tries > 0 && mail.state !== 'sent' && <small>{said.tries(mail.tries)}</small>}
        {mail.lastError !== '' && <small>{mail.lastError}</small>}
      </>
    ),
  },
];

/** What was written to whom, and why what was not sent was not. */
export function Messages() {
  const client = useQueryClient();
  const paging = usePaging('');
  const [note, setNote] = useState('');
  const mails = query.useQuery(
    'get',
    '/api/notices',
    { params: { query: { limit: paging.limit, ...(paging.cursor === undefined ? {} : { cursor: paging.cursor }) } } },
    { placeholderData: (before) => before },
  );
  const tryOut = async () => {
    const { error, response } = await api.POST('/api/notices/trial');
    setNote(response.ok ? said.trialSent : problemOf(error).title);
    await client.invalidateQueries({ queryKey: ['get', '/api/notices'] });
  };
  return (
    <section className="block">
      <h2>{said.mails}</h2>
      <Loaded of={mails} what={said.whatMails}>
        {(list) => (
          <>
            <p>
              {list.mailFrom === null ? said.noMail : said.waiting(list.waiting)}{' '}
              {list.toldAtOnce.length === 0 ? said.nobody : said.toldAtOnce(list.toldAtOnce.join(', '))}
            </p>
            <div className="row">
              <button type="button" onClick={() => void tryOut()}>
                {said.trial}
              </button>
              <span role="status" className="hint">
                {note}
              </span>
            </div>
            {list.items.length > 0 ? (
              <Sheet caption={said.mails} columns={COLUMNS} rows={list.items} keyOf={(mail) => mail.id} />
            ) : (
              <Empty title={said.noMails}>{said.noMailsWhy}</Empty>
            )}
            <Pager paging={paging} list={list} what={said.whatMails} />
          </>
        )}
      </Loaded>
    </section>
  );
}
