import { proofWords } from '../../words/proofs.js';

/** What keeps people and water safe, above the form that it is about. */
export function Cautions({ lines }: { lines: readonly string[] }) {
  return (
    <div className="note-box">
      <p>
        <strong>{proofWords.first}</strong>
      </p>
      <ul className="listed">
        {lines.map((line) => (
          <li key={line}>{line}</li>
        ))}
      </ul>
    </div>
  );
}
