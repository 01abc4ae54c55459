import { useEffect, useState } from 'react';
import { askToKeep, canKeepPages } from '../offline/register-worker.js';
import { workWords } from '../words/work.js';

/** What this device cannot do for places without signal; nothing where it can. `asks`: may ask the browser to keep what lies here. */
export function DeviceNotes({ asks = false }: { asks?: boolean }) {
  const [mayClear, setMayClear] = useState(false);
  useEffect(() => {
    if (asks && canKeepPages()) void askToKeep().then((isKept) => setMayClear(!isKept));
  }, [asks]);
  if (!canKeepPages()) return <p className="note-box">{workWords.plainHttp}</p>;
  return mayClear ? <p className="hint">{workWords.mayClear}</p> : null;
}
