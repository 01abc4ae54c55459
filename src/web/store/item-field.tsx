import { type KeyboardEvent, type Ref, useState } from 'react';
import { problemOf } from '../api/problem.js';
import { Field } from '../ui/field.js';
import { storeWords } from '../words/store.js';
import { type ChosenItem, findItem } from './find-item.js';

const said = storeWords.post;

interface ItemFieldProps {
  readonly id: string;
  readonly problem: string | undefined;
  readonly input: Ref<HTMLInputElement>;
  readonly chosen: ChosenItem | null;
  readonly onChosen: (item: ChosenItem | null) => void;
}

/** A scanner types into this field and ends with Enter, as a person may; several items that a text can mean are offered below it. */
export function ItemField({ id, problem, input, chosen, onChosen }: ItemFieldProps) {
  const [text, setText] = useState('');
  const [found, setFound] = useState<readonly ChosenItem[]>([]);
  const [trouble, setTrouble] = useState('');
  const choose = (item: ChosenItem) => {
    setText('');
    setFound([]);
    setTrouble('');
    onChosen(item);
  };
  const look = async () => {
    const asked = text.trim();
    if (asked === '') return;
    setFound([]);
    try {
      const items = await findItem(asked);
      const [only] = items;
      if (only !== undefined && items.length === 1) return choose(only);
      onChosen(null);
      setFound(items);
      setTrouble(items.length === 0 ? said.notKnown(asked) : '');
    } catch (error) {
      const { title, errors } = problemOf(error);
      setTrouble([title, ...errors.map(({ message }) => message)].join(': '));
    }
  };
  const onKeyDown = (event: KeyboardEvent) => {
    if (event.key !== 'Enter') return;
    event.preventDefault();
    void look();
  };
  return (
    <div className="fields-one">
      <Field id={id} label={said.item} hint={said.itemHint} problem={trouble !== '' ? trouble : problem}>
        {(props) => (
          <div className="post-item">
            <input
              {...props}
              ref={input}
              value={text}
              onChange={(event) => setText(event.target.value)}
              onKeyDown={onKeyDown}
              maxLength={200}
              autoComplete="off"
              autoCapitalize="off"
              spellCheck={false}
              enterKeyHint="search"
            />
            <button type="button" onClick={() => void look()}>
              {said.look}
            </button>
          </div>
        )}
      </Field>
      <div role="status">
        {chosen !== null && (
          <p className="post-chosen">
            {said.chosen(chosen.name, chosen.code)}
            {chosen.serial !== null && <small>{said.serial(chosen.serial)}</small>}
            {chosen.serial !== null && chosen.partId === null && <small>{said.noSerial}</small>}
          </p>
        )}
        {found.length > 0 && <p>{said.choose}</p>}
      </div>
      {found.length > 0 && (
        <ul className="post-found">
          {found.map((item) => (
            <li key={item.itemId}>
              <button type="button" onClick={() => choose(item)}>
                {said.chosen(item.name, item.code)}
              </button>
            </li>
          ))}
        </ul>
      )}
    </div>
  );
}
