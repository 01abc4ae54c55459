import type { UseQueryResult } from '@tanstack/react-query';
import type { ReactNode } from 'react';
import { problemOf } from '../api/problem.js';
import { words } from '../words.js';

export function Loading({ what }: { what: string }) {
  return (
    <p className="hold" role="status">
      {words.loading(what)}
    </p>
  );
}

/** Nothing to show, and what to do about it. A failure never looks like this. */
export function Empty({ title, children }: { title: string; children: ReactNode }) {
  return (
    <div className="empty">
      <p>
        <strong>{title}</strong>
      </p>
      <p>{children}</p>
    </div>
  );
}

export function Failed({ what, error, again }: { what: string; error: unknown; again?: () => void }) {
  const problem = problemOf(error);
  return (
    <div className="failed" role="alert">
      <p>
        <strong>{words.failed.load(what)}</strong> {problem.title}
      </p>
      {again !== undefined && problem.status !== 404 && problem.status !== 403 && (
        <p>
          <button type="button" onClick={again}>
            {words.failed.again}
          </button>
        </p>
      )}
    </div>
  );
}

/** Shows what a query brought, or that it is on its way, or that it failed: three states that look different. */
export function Loaded<T>({ of, what, children }: { of: UseQueryResult<T, unknown>; what: string; children: (data: T) => ReactNode }) {
  if (of.data !== undefined) return <>{children(of.data)}</>;
  if (of.isError) return <Failed what={what} error={of.error} again={() => void of.refetch()} />;
  return <Loading what={what} />;
}
