import '../styles/store.css';
import type { ReactNode } from 'react';
import { Link, useLocation } from 'wouter';
import { useMay } from '../session/session.js';
import { type Fact, PageHead } from '../ui/page-head.js';
import { storeWords } from '../words/store.js';

const { nav } = storeWords;
const PLACES = [
  { href: '/reorder', name: nav.reorder, keepers: true },
  { href: '/stock', name: nav.stock, keepers: false },
  { href: '/stock/post', name: nav.post, keepers: false },
  { href: '/orders', name: nav.orders, keepers: true },
  { href: '/counts', name: nav.counts, keepers: false },
  { href: '/transfers', name: nav.transfers, keepers: false },
  { href: '/stock/repairs', name: nav.repairs, keepers: false },
  { href: '/lots', name: nav.lots, keepers: false },
  { href: '/stock/places', name: nav.places, keepers: false },
  { href: '/stock/tables', name: nav.tables, keepers: true },
];

/** The head of every page of the store, with the way to the others. */
export function StoreHead({ title, facts, children }: { title: string; facts?: readonly Fact[]; children?: ReactNode }) {
  const [path] = useLocation();
  const { keepStore } = useMay();
  return (
    <>
      <nav className="store-nav no-print" aria-label={storeWords.parts}>
        <ul>
          {PLACES.filter(({ keepers }) => keepStore || !keepers).map(({ href, name }) => (
            <li key={href}>
              <Link href={href} aria-current={path === href || (path === '/' && href === '/reorder') ? 'page' : undefined}>
                {name}
              </Link>
            </li>
          ))}
        </ul>
      </nav>
      <PageHead title={title} {...(facts === undefined ? {} : { facts })}>
        {children}
      </PageHead>
    </>
  );
}
