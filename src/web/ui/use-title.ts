import { useEffect } from 'react';
import { words } from '../words.js';

/** Names the page in the window's title. */
export function useTitle(title: string): void {
  useEffect(() => {
    document.title = `${title} – ${words.product}`;
  }, [title]);
}
