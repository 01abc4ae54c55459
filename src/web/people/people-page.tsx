import { useState } from 'react';
import { query, type Schemas } from '../api/client.js';
import { FindBox } from '../ui/find-box.js';
import { PageHead } from '../ui/page-head.js';
import { Pager, usePaging } from '../ui/paging.js';
import { type Column, Sheet } from '../ui/sheet.js';
import { Empty, Loaded } from '../ui/states.js';
import { useFilter } from '../ui/use-filter.js';
import { words } from '../words.js';
import { InviteForm } from './invite-form.js';
import type { Link } from './link.js';
import { PersonActions } from './person-actions.js';

type Person = Schemas['PersonView'];

export default function PeoplePage() {
  const filter = useFilter();
  const paging = usePaging(filter.key);
  const [link, setLink] = useState<Link | null>(null);
  const find = filter.find === '' ? {} : { find: filter.find };
  const people = query.useQuery(
    'get',
    '/api/people',
    { params: { query: { limit: paging.limit, ...find, ...(paging.cursor === undefined ? {} : { cursor: paging.cursor }) } } },
    { placeholderData: (before) => before },
  );
  const columns: readonly Column<Person>[] = [
    {
      name: words.people.name,
      cell: (person) => (
        <>
          {person.name}
          <small>{person.email}</small>
        </>
      ),
    },
    { name: words.people.role, cell: (person) => words.people.roles[person.role] },
    { name: words.people.of, cell: (person) => [person.clientName, person.siteName].filter(Boolean).join(', ') || words.none },
    { name: words.people.readings, cell: (person) => (person.role !== 'client' ? words.none : person.mayEnterReadings ? words.yes : words.no) },
    { name: words.people.state, cell: (person) => (person.hasPassword ? words.people.active : words.people.invited) },
    { name: words.people.actions, wide: true, cell: (person) => <PersonActions person={person} onLink={setLink} /> },
  ];
  return (
    <>
      <PageHead title={words.people.title} />
      {link !== null && <NewLink link={link} />}
      <section className="block">
        <div className="tools no-print">
          <FindBox value={filter.find} onFind={filter.setFind} />
        </div>
        <Loaded of={people} what={words.people.what}>
          {(list) => (
            <>
              {list.items.length > 0 ? (
                <Sheet caption={words.people.title} columns={columns} rows={list.items} keyOf={(person) => person.id} />
              ) : (
                <Empty title={words.people.noMatch}>{words.clearFind}</Empty>
              )}
              <Pager paging={paging} list={list} what={words.people.what} />
            </>
          )}
        </Loaded>
      </section>
      <InviteForm onLink={setLink} />
    </>
  );
}

/** Shown once: the service keeps only what it needs to recognise it. */
function NewLink({ link }: { link: Link }) {
  return (
    <div className="note-box" role="status">
      <p>{words.people.linkFor(link.name)}</p>
      <p>
        <code>{`${location.origin}${link.path}`}</code>
      </p>
      <p className="hint">{words.people.linkOnce}</p>
    </div>
  );
}
