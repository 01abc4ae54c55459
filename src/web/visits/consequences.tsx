import type { Schemas } from '../api/client.js';
import { visitWords } from '../words/visits.js';

/** What speaks against a visit as it is, or as it would be. */
export function Consequences({ list }: { list: readonly Schemas['ConsequenceView'][] }) {
  if (list.length === 0) return <p className="aside">{visitWords.consequencesNone}</p>;
  return (
    <div className="note-box">
      <p>
        <strong>{visitWords.consequences}</strong>
      </p>
      <ul className="plain">
        {list.map(({ text }) => (
          <li key={text}>{text}.</li>
        ))}
      </ul>
    </div>
  );
}
