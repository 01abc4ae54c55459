import { useMutation, useQueryClient } from '@tanstack/react-query';
import { useEffect, useId, useRef, useState } from 'react';
import { Link } from 'wouter';
import { api } from './api/client.js';
import { forgetPerson } from './offline/kept-session.js';
import { SESSION_KEY, type Session, useMay, useSession } from './session/session.js';
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

interface Place {
  readonly href: string;
  readonly name: string;
}

/** More places than this do not stand side by side: those of every day do, and the others open under them. */
const SIDE_BY_SIDE = 6;

function Places({ path }: { path: string }) {
  const may = useMay();
  const { role } = useSession();
  const startsAtStore = role === 'storekeeper';
  const daily = [
    { href: '/', name: words.places.reorder, shown: startsAtStore },
    { href: '/stock', name: words.places.stock, shown: startsAtStore },
    { href: startsAtStore ? '/fleet' : '/', name: may.seeUpkeep ? words.fleet.title : words.fleet.own, shown: true },
    { href: '/work', name: words.places.work, shown: may.doWork },
    { href: '/dues', name: words.dues.title, shown: may.seeUpkeep },
    { href: '/visits', name: words.places.visits, shown: may.seeWork },
    { href: '/plan', name: words.places.plan, shown: may.manage },
    { href: '/requests', name: words.places.requests, shown: !may.seeWork },
    { href: '/jobs', name: words.places.jobs, shown: may.seeWork },
    { href: '/breakdowns', name: words.places.breakdowns, shown: may.seeWork },
  ].filter((place) => place.shown);
  const others = [
    { href: '/reorder', name: words.places.reorder, shown: may.keepStore && !startsAtStore },
    { href: '/stock', name: words.places.stock, shown: may.seeWork && !startsAtStore },
    { href: '/chemicals', name: words.chemicals.title, shown: may.seeChemicals },
    { href: '/supply', name: words.places.supply, shown: !may.seeWork },
    { href: '/calculators', name: words.places.calculators, shown: may.seeWork },
    { href: '/load', name: words.loads.title, shown: may.loadLogs },
    { href: '/readings', name: words.readings.title, shown: may.enterReadings },
    { href: '/registry', name: words.places.registry, shown: may.manage },
    { href: '/people', name: words.people.title, shown: may.manage },
    { href: '/outlooks', name: words.places.outlooks, shown: may.seeUpkeep },
    { href: '/load-ahead', name: words.places.load, shown: may.seeUpkeep },
    { href: '/rules', name: words.places.rules, shown: may.seeUpkeep },
    { href: '/task-sheets', name: words.places.taskSheets, shown: may.seeUpkeep },
    { href: '/indicators', name: words.places.indicators, shown: may.seeUpkeep },
    { href: '/gateways', name: words.places.gateways, shown: may.manage },
    { href: '/notices', name: words.places.notices, shown: true },
    { href: '/units', name: words.units.title, shown: true },
  ].filter((place) => place.shown);
  const isFew = daily.length + others.length <= SIDE_BY_SIDE;
  return (
    <nav aria-label={words.mainPlaces}>
      <ul>
        <PlaceLinks places={isFew ? [...daily, ...others] : daily} path={path} />
        {!isFew && (
          <li>
            <MorePlaces key={path} places={others} path={path} />
          </li>
        )}
      </ul>
    </nav>
  );
}

function PlaceLinks({ places, path }: { places: readonly Place[]; path: string }) {
  return places.map(({ href, name }) => (
    <li key={href}>
      <Link href={href} aria-current={isAt(path, href) ? 'page' : undefined}>
        {name}
      </Link>
    </li>
  ));
}

const isAt = (path: string, href: string) => path === href;

/** Opens under the strip, and closes when something else is pressed. */
function MorePlaces({ places, path }: { places: readonly Place[]; path: string }) {
  const box = useRef<HTMLDetailsElement>(null);
  useEffect(() => {
    const close = (event: Event) => {
      if (box.current?.open !== true) return;
      const isOutside = event.target instanceof Node && !box.current.contains(event.target);
      if (event instanceof KeyboardEvent ? event.key === 'Escape' : isOutside) box.current.open = false;
    };
    const kinds = ['pointerdown', 'focusin', 'keydown'] as const;
    for (const kind of kinds) document.addEventListener(kind, close);
    return () => {
      for (const kind of kinds) document.removeEventListener(kind, close);
    };
  }, []);
  const here = places.find(({ href }) => isAt(path, href));
  return (
    <details ref={box} className="more-places">
      <summary className={here === undefined ? undefined : 'here'}>{here === undefined ? words.morePlaces : words.morePlacesAt(here.name)}</summary>
      <ul>
        <PlaceLinks places={places} path={path} />
      </ul>
    </details>
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
