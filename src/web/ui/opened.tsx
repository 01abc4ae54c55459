import { type ReactNode, Suspense, useState } from 'react';
import { Loading } from './states.js';

/** What is fetched, code and all, when somebody opens it first, so that the page stays light; closed again it keeps what was typed. */
export function Opened({ summary, what, children }: { summary: ReactNode; what: string; children: ReactNode }) {
  const [wasOpen, setWasOpen] = useState(false);
  return (
    <details className="more no-print" onToggle={({ currentTarget }) => currentTarget.open && setWasOpen(true)}>
      <summary>{summary}</summary>
      {wasOpen && <Suspense fallback={<Loading what={what} />}>{children}</Suspense>}
    </details>
  );
}
