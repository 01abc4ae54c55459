import { useEffect, useId, useState } from 'react';
import { words } from '../words.js';

const PAUSE_MS = 250;

/** A search field that reports what was typed once the typing pauses. */
export function FindBox({ value, onFind, hint }: { value: string; onFind: (text: string) => void; hint?: string }) {
  const id = useId();
  const [text, setText] = useState(value);
  useEffect(() => setText(value), [value]);
  useEffect(() => {
    if (text === value) return;
    const timer = setTimeout(() => onFind(text), PAUSE_MS);
    return () => clearTimeout(timer);
  }, [text, value, onFind]);
  return (
    <>
      <label htmlFor={id}>{words.find}</label>
      <input id={id} type="search" value={text} maxLength={100} placeholder={hint} onChange={(event) => setText(event.target.value)} />
    </>
  );
}
