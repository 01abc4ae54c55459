import { type FormEvent, useState } from 'react';
import { query, type Schemas } from '../api/client.js';
import { number } from '../format.js';
import { Field } from '../ui/field.js';
import { type Column, Sheet } from '../ui/sheet.js';
import { Loaded } from '../ui/states.js';
import { foulingWords as said } from '../words/fouling.js';

type Times = Schemas['FiltrationTimeView'];
type Option = Schemas['TimeOptionView'];
const MOST_M3 = 1000;

const columnsOf = ({ minutes: now, wished }: Times): readonly Column<Option>[] => [
  {
    name: said.minutes,
    numeric: true,
    cell: ({ minutes }) => (
      <>
        {number(minutes)}
        {minutes === Math.round(now ?? 0) && <small> {said.now}</small>}
        {minutes === wished && <small> {said.wished}</small>}
      </>
    ),
  },
  { name: said.runsPerDay, numeric: true, cell: ({ runsPerDay }) => number(runsPerDay, 1) },
  { name: said.filtrate, numeric: true, cell: ({ filtrateM3PerDay }) => number(filtrateM3PerDay) },
  { name: said.net, numeric: true, cell: ({ netM3PerDay }) => number(netM3PerDay) },
  { name: said.recovery, numeric: true, cell: ({ recovery }) => (recovery === null ? '' : `${number(100 * recovery, 1)} %`) },
  { name: said.endKpa, numeric: true, cell: ({ endKpa }) => number(endKpa, 1) },
];

/** What other times of filtration would give with the water of the last days. */
export function FiltrationTimeSection({ skidId }: { skidId: string }) {
  const [entry, setEntry] = useState('');
  const [fault, setFault] = useState<string>();
  const [cleanM3, setCleanM3] = useState<number>();
  const times = query.useQuery('get', '/api/skids/{skidId}/filtration-time', {
    params: { path: { skidId }, query: cleanM3 === undefined ? {} : { cleanM3 } },
  });
  const reckon = (event: FormEvent) => {
    event.preventDefault();
    const text = entry.trim().replace(',', '.');
    const value = Number(text);
    const isRight = text === '' || (Number.isFinite(value) && value >= 0 && value <= MOST_M3);
    setFault(isRight ? undefined : said.notANumber);
    if (isRight) setCleanM3(text === '' ? undefined : value);
  };
  return (
    <section className="block">
      <h2>{said.time}</h2>
      <form className="no-print" noValidate onSubmit={reckon}>
        <Field id="clean-m3" label={said.cleanM3} hint={said.cleanM3Hint} problem={fault}>
          {(props) => <input {...props} value={entry} onChange={({ target }) => setEntry(target.value)} inputMode="decimal" autoComplete="off" />}
        </Field>
        <div className="row">
          <button type="submit">{said.reckon}</button>
        </div>
      </form>
      <Loaded of={times} what={said.whatTime}>
        {(found) => (
          <>
            <p>{found.inWords}</p>
            {found.options.length > 0 && (
              <>
                <Sheet caption={said.time} columns={columnsOf(found)} rows={found.options} keyOf={({ minutes }) => String(minutes)} scrolls />
                <p className="hint">{said.timeHow}</p>
              </>
            )}
          </>
        )}
      </Loaded>
    </section>
  );
}
