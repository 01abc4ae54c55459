import type { Schemas } from '../api/client.js';
import { type Column, Sheet } from '../ui/sheet.js';
import { ShowMore } from '../ui/show-more.js';
import { ruleWords as said } from '../words/rules.js';
import { placeName } from './rule-entries.js';

type Change = Schemas['RuleChangeView'];

const inWords = ({ field, from, to }: Schemas['FieldChangeView']) => said.fromTo(said.fields[field] ?? field, from, to);
const COLUMNS: readonly Column<Change>[] = [
  { name: said.task, cell: ({ task }) => task },
  { name: said.place, cell: ({ positionKind }) => placeName(positionKind) },
  { name: said.difference, wide: true, cell: ({ what, fields }) => [said.changed[what], fields.map(inWords).join('; ')].filter(Boolean).join(': ') },
];

/** Rule by rule, what a version changes against the one before. */
export function VersionChanges({ no, changes }: { no: number; changes: readonly Change[] }) {
  return (
    <section className="block">
      <h2>{said.changes}</h2>
      {no === 1 ? (
        <p className="aside">{said.firstVersion}</p>
      ) : changes.length === 0 ? (
        <p className="aside">{said.noChanges}</p>
      ) : (
        <ShowMore rows={changes}>
          {(shown) => <Sheet caption={said.changes} columns={COLUMNS} rows={shown} keyOf={({ positionKind, task }) => `${positionKind} ${task}`} />}
        </ShowMore>
      )}
    </section>
  );
}
