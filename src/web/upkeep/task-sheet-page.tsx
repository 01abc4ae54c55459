import { cautionsFor } from '../../shared/cautions.js';
import type { Hazard, TaskKind } from '../../shared/task-sheet.js';
import { query, type Schemas } from '../api/client.js';
import { minutes, number } from '../format.js';
import { PageHead } from '../ui/page-head.js';
import { Loaded } from '../ui/states.js';
import { upkeepWords as said } from '../words/upkeep.js';

type Sheet = Schemas['TaskSheetView'];

/** One task: its steps, what it takes, and what to mind. */
export default function TaskSheetPage({ sheetId }: { sheetId: string }) {
  const sheet = query.useQuery('get', '/api/task-sheets/{id}', { params: { path: { id: sheetId } } });
  return (
    <Loaded of={sheet} what={said.whatSheets}>
      {(found) => <OneSheet sheet={found} />}
    </Loaded>
  );
}

function OneSheet({ sheet }: { sheet: Sheet }) {
  const { latest } = sheet;
  const cautions = cautionsFor({
    kinds: [sheet.kind as TaskKind],
    chemicals: latest.chemicals.map(({ chemical }) => chemical),
    hazards: latest.hazards as Hazard[],
  });
  const lists = [
    { name: said.parts, items: latest.parts.map(({ quantity, unit, name, code }) => `${quantity} ${unit === 'C62' ? '×' : unit} ${name} (${code})`) },
    { name: said.chemicals, items: latest.chemicals.map(({ chemical, litres, strength }) => [chemical, `${litres} L`, strength].filter(Boolean).join(', ')) },
    { name: said.tools, items: latest.tools },
    { name: said.instruments, items: latest.instruments },
    { name: said.skills, items: latest.skills },
    { name: said.certificates, items: latest.certificates },
  ].filter(({ items }) => items.length > 0);
  const facts = [
    { name: said.kind, value: sheet.kind },
    { name: said.minutes, value: minutes(latest.usualMinutes) },
    { name: said.crew, value: number(latest.crew) },
    { name: said.waterOff, value: number(latest.waterOffMinutes) },
    { name: said.version, value: number(latest.no) },
  ];
  return (
    <>
      <PageHead over={said.sheet} title={sheet.task} facts={facts} />
      {latest.note !== '' && <p className="hint">{latest.note}</p>}
      <section className="block">
        <h2>{said.cautions}</h2>
        <ul className="plain">
          {cautions.map(({ about, text }) => (
            <li key={text}>
              <strong>{about}.</strong> {text}
            </li>
          ))}
        </ul>
      </section>
      <section className="block">
        <h2>{said.steps}</h2>
        <ol>
          {latest.steps.map(({ no, text, safety, low, high, unit }) => (
            <li key={no}>
              {text} {safety && <strong>{said.safety}</strong>}
              {(low !== null || high !== null) && (
                <small>{said.between(low === null ? '–' : String(low), high === null ? '–' : String(high), unit ?? '')}</small>
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
