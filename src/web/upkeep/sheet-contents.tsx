import { isUnitCode, UNITS } from '../../shared/units.js';
import type { Schemas } from '../api/client.js';
import { written } from '../format.js';
import { sheetWords } from '../words/task-sheets.js';
import { upkeepWords as said } from '../words/upkeep.js';
import { plainDecimal } from './sheet-draft.js';

type Version = Schemas['SheetVersionView'];

/** The steps of a version, and what it takes. */
export function SheetContents({ version }: { version: Version }) {
  const lists = [
    {
      name: said.parts,
      items: version.parts.map(({ quantity, unit, name, code }) => `${plainDecimal(quantity)} ${unit === 'C62' ? '×' : unit} ${name} (${code})`),
    },
    { name: said.chemicals, items: version.chemicals.map(({ chemical, litres, strength }) => [chemical, `${litres} L`, strength].filter(Boolean).join(', ')) },
    { name: said.tools, items: version.tools },
    { name: said.instruments, items: version.instruments },
    { name: said.skills, items: version.skills },
    { name: said.certificates, items: version.certificates },
  ].filter(({ items }) => items.length > 0);
  return (
    <>
      <section className="block">
        <h2>{said.steps}</h2>
        <ol>
          {version.steps.map(({ no, text, safety, low, high, unit }) => (
            <li key={no}>
              {text} {safety && <strong>{said.safety}</strong>}
              {(low !== null || high !== null) && (
                <small>{sheetWords.limits(low === null ? null : written(low), high === null ? null : written(high), unitLabel(unit))}</small>
              )}
            </li>
          ))}
        </ol>
      </section>
      {lists.map(({ name, items }) => (
        <section className="block" key={name}>
          <h2>{name}</h2>
          <ul className="plain">
            {items.map((item) => (
              <li key={item}>{item}</li>
            ))}
          </ul>
        </section>
      ))}
    </>
  );
}

const unitLabel = (unit: string | null) => (unit === null ? '' : isUnitCode(unit) ? UNITS[unit].label : unit);
