import type { ReactNode } from 'react';
import { useTitle } from './use-title.js';

export interface Fact {
  readonly name: string;
  readonly value: ReactNode;
}

/** Above: where we are; then the name; facts on the right. */
export function PageHead({ over, title, facts = [], children }: { over?: ReactNode; title: string; facts?: readonly Fact[]; children?: ReactNode }) {
  useTitle(title);
  return (
    <header className="page-head">
      <div>
        {over !== undefined && <p className="over">{over}</p>}
        <h1>{title}</h1>
        {children}
      </div>
      {facts.length > 0 && <Facts facts={facts} />}
    </header>
  );
}

export function Facts({ facts }: { facts: readonly Fact[] }) {
  return (
    <dl className="facts">
      {facts.map(({ name, value }) => (
        <div key={name}>
          <dt>{name}</dt>
          <dd>{value}</dd>
        </div>
      ))}
    </dl>
  );
}
