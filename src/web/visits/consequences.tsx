import type { Schemas } from '../api/client.js';
import { words } from '../words.js';

/** What speaks against a visit as it is, or as it would be. */
export function Consequences({ list }: { list: readonly Schemas['ConsequenceView'][] }) {
  if (list.length === 0) return <p className="aside">{words.visits.consequencesNone}</p>;
  return (
    <div className="note-box">
      <p>
        <strong>{words.visits.consequences}</strong>
      </p>
      <ul className="plain">
        {list.map(({ text }) => (
          <li key={text}>{text}.</li>
        ))}
      </ul>
    </div>
  );
}
