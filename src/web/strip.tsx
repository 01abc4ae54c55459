import { useMutation, useQueryClient } from '@tanstack/react-query';
import { useId, useState } from 'react';
import { Link } from 'wouter';
import { api } from './api/client.js';
import { forgetPerson } from './offline/kept-session.js';
import { SESSION_KEY, type Session, useMay } from './session/session.js';
import { words } from './words.js';

/** Across the top of every page: where one can go, the colours, and who is signed in. */
export function Strip({ session, path }: { session: Session | null; path: string }) {
  return (
    <div className="strip no-print">
      <span className="strip-name">{words.product}</span>
      {session !== null && <Places path={path} />}
      <div className="strip-own">
        <ThemeChoice />
        {session !== null && <SignOut session={session} />}
      </div>
    </div>
  );
}

function Places({ path }: { path: string }) {
  const may = useMay();
  const places = [
    { href: '/', name: may.seeUpkeep ? words.fleet.title : words.fleet.own, shown: true },
    { href: '/work', name: words.work.title, shown: may.doWork },
    { href: '/dues', name: words.dues.title, shown: may.seeUpkeep },
    { href: '/chemicals', name: words.chemicals.title, shown: may.seeChemicals },
    { href: '/load', name: words.loads.title, shown: may.loadLogs },
    { href: '/readings', name: words.readings.title, shown: may.enterReadings },
    { href: '/registry', name: words.registry.title, shown: may.manage },
    { href: '/people', name: words.people.title, shown: may.manage },
    { href: '/units', name: words.units.title, shown: true },
  ];
  return (
    <nav aria-label={words.mainPlaces}>
      <ul>
        {places
          .filter((place) => place.shown)
          .map(({ href, name }) => (
            <li key={href}>
              <Link href={href} aria-current={path === href ? 'page' : undefined}>
                {name}
              </Link>
            </li>
          ))}
      </ul>
    </nav>
  );
}

const THEMES = ['system', 'light', 'dark'] as const;

function ThemeChoice() {
  const id = useId();
  const [theme, setTheme] = useState(() => document.documentElement.dataset.theme ?? 'system');
  const choose = (next: string) => {
    setTheme(next);
    if (next === 'system') delete document.documentElement.dataset.theme;
    else document.documentElement.dataset.theme = next;
    try {
      if (next === 'system') localStorage.removeItem('theme');
      else localStorage.setItem('theme', next);
    } catch {
      // storage may be switched off: the choice lasts as long as the page
    }
  };
  return (
    <div className="theme-pick">
      <label htmlFor={id}>{words.colours.name}</label>
      <select id={id} value={theme} onChange={(event) => choose(event.target.value)}>
        {THEMES.map((one) => (
          <option key={one} value={one}>
            {words.colours[one]}
          </option>
        ))}
      </select>
    </div>
  );
}

function SignOut({ session: { id, name } }: { session: Session }) {
  const client = useQueryClient();
  const signOut = useMutation({
    mutationFn: () => api.DELETE('/api/session'),
    // Nothing of the person who leaves stays behind for the next one.
    onSuccess: async () => {
      await forgetPerson(id);
      client.setQueryData(SESSION_KEY, null);
      client.removeQueries({ predicate: ({ queryKey }) => queryKey[0] !== SESSION_KEY[0] });
    },
  });
  return (
    <span className="who">
      <span>{name}</span>
      <button type="button" onClick={() => signOut.mutate()} disabled={signOut.isPending}>
        {words.session.signOut}
      </button>
    </span>
  );
}
