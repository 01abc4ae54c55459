import { useState } from 'react';
import { api, query, type Schemas } from '../../api/client.js';
import { moment, number } from '../../format.js';
import { SayDialog } from '../../ui/say-dialog.js';
import { type Column, Sheet } from '../../ui/sheet.js';
import { Loaded } from '../../ui/states.js';
import { travelWords as said } from '../../words/travel.js';
import { pairInWords } from './travel-fields.js';

type ByHand = Schemas['TravelOverrideView'];
const ZONE = Intl.DateTimeFormat().resolvedOptions().timeZone;

/** Ways that somebody knows better than any table, each with who set it. */
export function ByHandList({ onChange, onAdd }: { onChange: (way: ByHand) => void; onAdd: () => void }) {
  const [leaving, setLeaving] = useState<ByHand>();
  const ways = query.useQuery('get', '/api/planning/travel/overrides');
  const columns: readonly Column<ByHand>[] = [
    { name: said.pair, cell: pairInWords },
    { name: said.minutes, numeric: true, cell: ({ minutes }) => number(minutes) },
    { name: said.km, numeric: true, cell: ({ km }) => number(km, 1) },
    { name: said.why, wide: true, cell: ({ note }) => note },
    { name: said.setBy, cell: ({ setBy, setAt }) => (setBy === null ? said.notKept : said.setByWhen(setBy, moment(setAt, ZONE))) },
    {
      name: said.change,
      cell: (way) => (
        <span className="row no-print">
          <button type="button" onClick={() => onChange(way)}>
            {said.change}
            <span className="unseen"> {pairInWords(way)}</span>
          </button>
          <button type="button" onClick={() => setLeaving(way)}>
            {said.remove}
            <span className="unseen"> {pairInWords(way)}</span>
          </button>
        </span>
      ),
    },
  ];
  return (
    <section className="block">
      <h2>{said.byHand}</h2>
      <p className="aside">{said.byHandNote}</p>
      <Loaded of={ways} what={said.whatByHand}>
        {(list) => (list.length === 0 ? <p>{said.byHandNone}</p> : <Sheet caption={said.byHand} columns={columns} rows={list} keyOf={({ id }) => id} />)}
      </Loaded>
      <p className="no-print">
        <button type="button" onClick={onAdd}>
          {said.addByHand}
        </button>
      </p>
      {leaving !== undefined && (
        <SayDialog
          title={said.removePairAsk(pairInWords(leaving))}
          button={said.remove}
          send={() => api.DELETE('/api/planning/travel/overrides/{id}', { params: { path: { id: leaving.id } } })}
          onClose={() => setLeaving(undefined)}
        >
          <p>{said.removePairNote}</p>
        </SayDialog>
      )}
    </section>
  );
}
