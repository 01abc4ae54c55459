import { useEffect, useState } from 'react';
import { whatIfWords as said } from '../words/what-if.js';

const TICK_MS = 250;

/** While a search runs: how far it is by the clock, and a way to end it. */
export function SearchProgress({ seconds, onStop }: { seconds: number; onStop: () => void }) {
  const [from] = useState(() => Date.now());
  const [now, setNow] = useState(from);
  useEffect(() => {
    const timer = setInterval(() => setNow(Date.now()), TICK_MS);
    return () => clearInterval(timer);
  }, []);
  const most = Math.max(1, seconds);
  return (
    <div className="search-progress">
      <progress aria-label={said.progress} max={most} value={Math.min(most, (now - from) / 1000)} />
      <p role="status" className="hint">
        {said.takes(most)}
      </p>
      <button type="button" onClick={onStop}>
        {said.stop}
      </button>
    </div>
  );
}
