import { useRef } from 'react';
import { newUuid } from '../new-uuid.js';

/** The id and moment of what is entered: the same again is the same entry, and anything else is another. */
export function useEntered() {
  const entered = useRef<{ text: string; id: string; at: string }>(undefined);
  return {
    of: (body: object) => {
      const text = JSON.stringify(body);
      if (entered.current?.text !== text) entered.current = { text, id: newUuid(), at: new Date().toISOString() };
      const { id, at } = entered.current;
      return { id, at };
    },
    done: () => {
      entered.current = undefined;
    },
  };
}
