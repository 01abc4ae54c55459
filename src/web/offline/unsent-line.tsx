import { Link } from 'wouter';
import type { Session } from '../session/session.js';
import { words } from '../words.js';
import { useUnsent } from './device-outbox.js';
import { countUnsent } from './outbox.js';

/** Under the strip of every page: what lies on this device and is not yet sent. Nothing, when all is sent. */
export function UnsentLine({ session }: { session: Session | null }) {
  const { parcels, isSending, failure } = useUnsent();
  const people = countUnsent(parcels);
  const isRefused = parcels.some(({ personId, refused }) => personId === session?.id && refused !== null);
  return (
    <div className="unsent no-print" role="status">
      {failure !== null && (
        <p className="unsent-failure">
          <strong>{words.unsent[failure]}</strong>
        </p>
      )}
      {people.map(({ personId, personName, sheets, photos }) =>
        personId === session?.id ? (
          <p key={personId}>
            <Link href="/work">{words.unsent.line(sheets, photos)}</Link> {isRefused ? words.unsent.refused : isSending ? words.unsent.sending : ''}
          </p>
        ) : session === null ? (
          <p key={personId}>
            {words.unsent.line(sheets, photos)} {words.unsent.signIn(personName)}
          </p>
        ) : (
          <p key={personId}>{words.unsent.of(personName, sheets, photos)}</p>
        ),
      )}
    </div>
  );
}
