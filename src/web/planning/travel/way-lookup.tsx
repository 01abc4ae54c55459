import { useState } from 'react';
import { query, type Schemas } from '../../api/client.js';
import { minutes, number } from '../../format.js';
import { Field } from '../../ui/field.js';
import { Loaded } from '../../ui/states.js';
import { travelWords as said } from '../../words/travel.js';
import { PlaceOptions } from './place-options.js';
import type { Places } from './places.js';

interface LookupProps {
  readonly places: Places;
  /** With the way as it is known now */
  readonly onSet: (way: Partial<Schemas['TravelOverrideView']>) => void;
}

/** How long one way takes and where that comes from. */
export function WayLookup({ places, onSet }: LookupProps) {
  const [[from, to], setEnds] = useState(['', ''] as readonly [string, string]);
  return (
    <section className="block">
      <h2>{said.lookUp}</h2>
      <div className="fields">
        <Field id="way-from" label={said.from}>
          {(props) => (
            <select {...props} value={from} onChange={({ target }) => setEnds([target.value, to])}>
              <PlaceOptions {...places} />
            </select>
          )}
        </Field>
        <Field id="way-to" label={said.to}>
          {(props) => (
            <select {...props} value={to} onChange={({ target }) => setEnds([from, target.value])}>
              <PlaceOptions {...places} />
            </select>
          )}
        </Field>
      </div>
      <div role="status">
        {from !== '' && from === to && <p>{said.sameEnds}</p>}
        {from !== '' && to !== '' && from !== to && <Way from={from} to={to} onSet={onSet} />}
      </div>
    </section>
  );
}

function Way({ from: fromId, to: toId, onSet }: Pick<LookupProps, 'onSet'> & { from: string; to: string }) {
  const way = query.useQuery('get', '/api/planning/travel', { params: { query: { from: fromId, to: toId } } });
  return (
    <Loaded of={way} what={said.whatWay}>
      {({ fromName, toName, minutes: takes, km, source, said: wrong }) => (
        <>
          <p>
            {said.way(fromName, toName, minutes(takes), number(km, 1))}, <strong>{said.sources[source]}</strong>.
          </p>
          {wrong !== null && <p className="note-box">{wrong}.</p>}
          {source !== 'set by hand' && (
            <p>
              <button type="button" onClick={() => onSet({ fromId, toId, minutes: takes, km })}>
                {said.addByHand}
              </button>
            </p>
          )}
        </>
      )}
    </Loaded>
  );
}
