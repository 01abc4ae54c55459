import '../../styles/planning.css';
import { useState } from 'react';
import { Link } from 'wouter';
import { query } from '../../api/client.js';
import { NotFound } from '../../ui/not-found.js';
import { PageHead } from '../../ui/page-head.js';
import { Loaded } from '../../ui/states.js';
import { planningWords } from '../../words/planning.js';
import { words } from '../../words.js';
import { PersonForm } from './person-form.js';

const said = planningWords.person;

/** What plans have to know of somebody who can be sent. */
export default function PersonPlanningPage({ personId }: { personId: string }) {
  const [saved, setSaved] = useState<number>();
  const people = query.useQuery('get', '/api/planning/people');
  return (
    <Loaded of={people} what={said.what}>
      {(list) => {
        const person = list.find((each) => each.personId === personId);
        if (person === undefined) return <NotFound />;
        return (
          <>
            <PageHead over={<Link href="/people">{words.people.title}</Link>} title={said.title(person.name)} />
            <p className="aside">{said.note}</p>
            {person.version === 0 && <p className="note-box">{said.nothing}</p>}
            <PersonForm key={person.version} person={person} isSaved={person.version === saved} onSaved={setSaved} />
          </>
        );
      }}
    </Loaded>
  );
}
