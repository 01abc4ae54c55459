import { useQueryClient } from '@tanstack/react-query';
import { useRef, useState } from 'react';
import { Link } from 'wouter';
import { api, type Schemas } from '../api/client.js';
import { ifMatch } from '../api/if-match.js';
import { problemOf } from '../api/problem.js';
import { words } from '../words.js';
import type { Link as Invitation } from './link.js';

type Person = Schemas['PersonView'];

/** A new link for somebody who lost theirs, and the end of an account, which is asked for twice. */
export function PersonActions({ person, onLink }: { person: Person; onLink: (link: Invitation) => void }) {
  const client = useQueryClient();
  const dialog = useRef<HTMLDialogElement>(null);
  const [problem, setProblem] = useState('');

  const newLink = async () => {
    const { data, error } = await api.POST('/api/people/{id}/invitation', { params: { path: { id: person.id } } });
    if (data === undefined) setProblem(problemOf(error).title);
    else onLink({ name: person.name, path: data.path, expiresAt: data.expiresAt });
  };
  const end = async () => {
    dialog.current?.close();
    const { error, response } = await api.POST('/api/people/{id}/end', {
      params: { path: { id: person.id } },
      headers: ifMatch(person),
    });
    if (!response.ok) setProblem(problemOf(error).title);
    await client.invalidateQueries({ queryKey: ['get', '/api/people'] });
  };
  return (
    <div className="row">
      {(person.role === 'technician' || person.role === 'manager') && (
        <Link className="target" href={`/people/${person.id}/planning`}>
          {words.people.planning} <span className="unseen">{person.name}</span>
        </Link>
      )}
      <button type="button" onClick={() => void newLink()}>
        {words.people.newLink} <span className="unseen">{person.name}</span>
      </button>
      <button type="button" onClick={() => dialog.current?.showModal()}>
        {words.people.end} <span className="unseen">{person.name}</span>
      </button>
      {problem !== '' && (
        <span role="alert" className="fix">
          {problem}
        </span>
      )}
      <dialog ref={dialog} aria-labelledby={`end${person.id}`}>
        <h2 id={`end${person.id}`}>{words.people.endAsk(person.name)}</h2>
        <p>{words.people.endNote}</p>
        <div className="row">
          <button type="button" className="main-button" onClick={() => void end()}>
            {words.people.endNow}
          </button>
          <button type="button" onClick={() => dialog.current?.close()}>
            {words.cancel}
          </button>
        </div>
      </dialog>
    </div>
  );
}
