import { useQueryClient } from '@tanstack/react-query';
import { useState } from 'react';
import { api, query, type Schemas } from '../api/client.js';
import { problemOf } from '../api/problem.js';
import { moment } from '../format.js';
import { Field } from '../ui/field.js';
import { type Column, Sheet } from '../ui/sheet.js';
import { Empty, Loaded } from '../ui/states.js';
import { Trouble } from '../ui/trouble.js';
import { useEntries } from '../ui/use-entries.js';
import { noticeWords as said } from '../words/notices.js';
import { words } from '../words.js';

type Address = Schemas['CalendarAddressView'];

const own = Intl.DateTimeFormat().resolvedOptions().timeZone;

/** Private addresses at which calendar programs read a person's visits. */
export function CalendarAddresses() {
  const client = useQueryClient();
  const [made, setMade] = useState<{ readonly name: string; readonly path: string } | null>(null);
  const [problem, setProblem] = useState('');
  const addresses = query.useQuery('get', '/api/me/calendar-addresses');
  const refresh = () => void client.invalidateQueries({ queryKey: ['get', '/api/me/calendar-addresses'] });
  const withdraw = async (id: string) => {
    const { error, response } = await api.DELETE('/api/me/calendar-addresses/{id}', { params: { path: { id } } });
    setProblem(response.ok ? '' : problemOf(error).title);
    refresh();
  };
  const form = useEntries({
    start: { name: '' },
    check: ({ name }) => (name.trim() === '' ? { name: said.needProgram } : {}),
    send: ({ name }) => api.POST('/api/me/calendar-addresses', { body: { name: name.trim() } }),
    onDone: (answer) => {
      form.setEntries({ name: '' });
      if (answer !== undefined) setMade({ name: answer.address.name, path: answer.path });
      refresh();
    },
  });
  const columns: readonly Column<Address>[] = [
    { name: said.program, cell: (address) => address.name },
    { name: said.made, cell: (address) => moment(address.createdAt, own) },
    { name: said.lastRead, cell: (address) => moment(address.lastReadAt, own) },
    {
      name: words.people.actions,
      wide: true,
      cell: (address) => (
        <button type="button" onClick={() => void withdraw(address.id)}>
          {said.withdraw} <span className="unseen">{address.name}</span>
        </button>
      ),
    },
  ];
  return (
    <section className="block">
      <h2>{said.calendars}</h2>
      <p className="hint">{said.calendarHint}</p>
      {made !== null && (
        <div className="note-box" role="status">
          <p>{made.name}</p>
          <p>
            <code>{`${location.origin}${made.path}`}</code>
          </p>
          <p className="hint">{said.addressOnce}</p>
        </div>
      )}
      {problem !== '' && (
        <p role="alert" className="fix">
          {problem}
        </p>
      )}
      <Loaded of={addresses} what={said.whatCalendars}>
        {({ items }) =>
          items.length > 0 ? (
            <Sheet caption={said.calendars} columns={columns} rows={items} keyOf={(address) => address.id} />
          ) : (
            <Empty title={said.noAddress}>{said.noAddressWhy}</Empty>
          )
        }
      </Loaded>
      <Trouble troubles={form.troubles} attempt={form.attempt} />
      <form noValidate onSubmit={form.submit}>
        <div className="fields">
          <Field {...form.field('name')} label={said.program}>
            {(props) => <input {...props} {...form.control('name')} autoComplete="off" />}
          </Field>
        </div>
        <div className="row">
          <button type="submit" disabled={form.isSending}>
            {said.newAddress}
          </button>
        </div>
      </form>
    </section>
  );
}
