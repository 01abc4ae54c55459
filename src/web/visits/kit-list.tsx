import type { Schemas } from '../api/client.js';
import { minutes, written } from '../format.js';
import { type Column, Sheet } from '../ui/sheet.js';
import { Empty } from '../ui/states.js';
import { visitWords } from '../words/visits.js';
import { words } from '../words.js';

type Kit = Schemas['KitView'];
type Item = Schemas['KitItemView'];

const { kit: say } = visitWords;
const amount = (quantity: string, unit = 'C62') => `${written(Number(quantity))}${unit === 'C62' ? '' : ` ${unit}`}`;
const unlessNone = (quantity: string, unit: string) => (Number(quantity) === 0 ? words.none : amount(quantity, unit));

const COLUMNS: readonly Column<Item>[] = [
  {
    name: say.item,
    cell: (item) => (
      <>
        {item.name}
        <small>{item.code}</small>
      </>
    ),
  },
  { name: say.needed, numeric: true, cell: (item) => amount(item.quantity, item.unit) },
  { name: say.inVan, numeric: true, cell: (item) => unlessNone(item.inVan, item.unit) },
  { name: say.pick, numeric: true, cell: (item) => unlessNone(item.toPick, item.unit) },
  {
    name: say.from,
    cell: ({ toPick, stores, otherVans, unit }) =>
      Number(toPick) === 0
        ? words.none
        : [
            ...stores.map(({ placeName, onHand }) => say.storeHolds(placeName, amount(onHand))),
            ...otherVans.map(({ name, quantity }) => say.handOver(amount(quantity, unit), name)),
          ].map((line) => (
            <span key={line} className="line">
              {line}
            </span>
          )),
  },
  { name: say.short, numeric: true, cell: (item) => (Number(item.short) === 0 ? words.none : <strong>{amount(item.short, item.unit)}</strong>) },
];
const TAKEN: Column<Item> = { name: say.taken, cell: () => <span className="tick-box" /> };

/** Everything that the jobs of a visit need, what of it the van holds, and what has to be known of it. */
export function KitList({ kit, onPaper }: { kit: Kit; onPaper?: true }) {
  const short = kit.items.filter((item) => Number(item.short) > 0).length;
  const lists = [
    { name: say.chemicals, lines: kit.chemicals.map(({ chemical, litres, strength }) => say.amount(chemical, written(litres), strength)) },
    { name: say.tools, lines: kit.tools },
    { name: say.instruments, lines: kit.instruments },
    { name: say.skills, lines: kit.skills },
    { name: say.certificates, lines: kit.certificates },
    { name: say.withoutSheet, lines: kit.withoutSheet },
  ].filter(({ lines }) => lines.length > 0);
  if (kit.items.length + lists.length + kit.cautions.length === 0) return <Empty title={say.none}>{say.noneWhy}</Empty>;
  return (
    <>
      <p className="aside">{[say.crew(kit.crew), ...(kit.waterOffMinutes > 0 ? [say.waterOff(minutes(kit.waterOffMinutes))] : [])].join(' · ')}</p>
      {short > 0 && <p className="note-box">{say.shortOf(short)}</p>}
      {kit.items.length > 0 && (
        <>
          <h3>{say.parts}</h3>
          <Sheet caption={say.parts} columns={onPaper ? [...COLUMNS, TAKEN] : COLUMNS} rows={kit.items} keyOf={(item) => item.itemId} />
        </>
      )}
      {kit.keepApart.map(({ chemicals, happens }) => (
        <p key={chemicals.join()} className="caution">
          <strong>{say.keepApart}</strong> {chemicals.join(', ')}: {happens}
        </p>
      ))}
      <div className="kit-lists">
        {lists.map(({ name, lines }) => (
          <div key={name}>
            <h3>{name}</h3>
            <ul className={onPaper ? 'to-tick' : 'plain'}>
              {lines.map((line) => (
                <li key={line}>{line}</li>
              ))}
            </ul>
          </div>
        ))}
      </div>
      {kit.cautions.length > 0 && (
        <>
          <h3>{say.cautions}</h3>
          {kit.cautions.map(({ about, text }) => (
            <p key={`${about} ${text}`} className="caution">
              <strong>{about}:</strong> {text}
            </p>
          ))}
        </>
      )}
    </>
  );
}
