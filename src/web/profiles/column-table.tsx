import { isSignalCode, SIGNALS, type SignalCode } from '../../shared/signals.js';
import { isUnitCode } from '../../shared/units.js';
import type { Schemas } from '../api/client.js';
import { NAMED_UNITS, unitsOf } from '../unit-options.js';
import { unitLabel } from '../units-choice.js';
import { profileWords } from '../words/profiles.js';
import { words } from '../words.js';
import { type Column, columnAs, isOfMachine, type Kind } from './definition.js';
import { FIELD_NAMES } from './table-fields.js';

interface ColumnTableProps {
  readonly kind: Kind;
  readonly columns: readonly Column[];
  readonly positions: readonly Schemas['PositionView'][];
  readonly onChange: (columns: Column[]) => void;
  /** What a control is called by a refusal: `columns/3/unit` */
  readonly control: (path: string) => { id: string; 'aria-invalid': true | undefined };
}

/** One row for each column that is used: its name in the file, what it is, and in which unit. */
export function ColumnTable({ kind, columns, positions, onChange, control }: ColumnTableProps) {
  const set = (at: number, column: Column) => onChange(columns.map((each, place) => (place === at ? column : each)));
  const isSignals = kind === 'samples' || kind === 'hand';
  if (columns.length === 0) return null;
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: a box that scrolls must be reachable by keyboard
    <section className="sheet-hold" tabIndex={0} aria-label={profileWords.columns}>
      <table className="sheet entry">
        <caption className="unseen">{profileWords.columns}</caption>
        <thead>
          <tr>
            <th scope="col">{kind === 'hand' ? profileWords.gauge : profileWords.column}</th>
            <th scope="col">{profileWords.as}</th>
            <th scope="col">{words.readings.unit}</th>
            {kind === 'samples' && <th scope="col">{profileWords.machine}</th>}
            {kind === 'hand' && <th scope="col">{profileWords.division}</th>}
            <th scope="col">
              <span className="unseen">{profileWords.remove}</span>
            </th>
          </tr>
        </thead>
        <tbody>
          {columns.map((column, at) => {
            const named = (name: string) => profileWords.ofColumn(name, column.column || String(at + 1));
            return (
              <tr key={`${at} of ${columns.length}`}>
                <td>
                  <input
                    {...control(`columns/${at}/column`)}
                    aria-label={profileWords.nameOf(at + 1)}
                    value={column.column}
                    onChange={(event) => set(at, { ...column, column: event.target.value })}
                  />
                </td>
                <td>
                  {isSignals ? (
                    <select
                      {...control(`columns/${at}/as`)}
                      aria-label={named(profileWords.as)}
                      value={column.as}
                      onChange={(event) => set(at, columnAs(column, event.target.value))}
                    >
                      <option value="">{words.choose}</option>
                      {(Object.keys(SIGNALS) as SignalCode[])
                        .filter((code) => kind === 'samples' || !isOfMachine(code))
                        .map((code) => (
                          <option key={code} value={code}>
                            {SIGNALS[code].label}
                          </option>
                        ))}
                    </select>
                  ) : (
                    <input
                      {...control(`columns/${at}/as`)}
                      aria-label={named(profileWords.as)}
                      list="profile-fields"
                      value={column.as}
                      onChange={(event) => set(at, columnAs(column, event.target.value))}
                    />
                  )}
                </td>
                <td>
                  <select
                    {...control(`columns/${at}/unit`)}
                    aria-label={named(words.readings.unit)}
                    value={column.unit ?? ''}
                    onChange={(event) => set(at, { ...column, unit: isUnitCode(event.target.value) ? event.target.value : null })}
                  >
                    {!isSignalCode(column.as) && <option value="">{words.none}</option>}
                    {(isSignalCode(column.as) ? unitsOf(SIGNALS[column.as].dimension) : NAMED_UNITS).map((code) => (
                      <option key={code} value={code}>
                        {unitLabel(code) || words.none}
                      </option>
                    ))}
                  </select>
                </td>
                {kind === 'samples' && (
                  <td>
                    {isOfMachine(column.as) && (
                      <select
                        {...control(`columns/${at}/positionId`)}
                        aria-label={named(profileWords.machine)}
                        value={column.positionId ?? ''}
                        onChange={(event) => set(at, { ...column, positionId: event.target.value || null })}
                      >
                        <option value="">{words.choose}</option>
                        {positions.map(({ id, name }) => (
                          <option key={id} value={id}>
                            {name}
                          </option>
                        ))}
                      </select>
                    )}
                  </td>
                )}
                {kind === 'hand' && (
                  <td>
                    <input
                      {...control(`columns/${at}/smallestDivision`)}
                      aria-label={named(profileWords.division)}
                      type="number"
                      min={0}
                      step="any"
                      value={column.smallestDivision ?? ''}
                      onChange={(event) => set(at, { ...column, smallestDivision: event.target.value === '' ? null : Number(event.target.value) })}
                    />
                  </td>
                )}
                <td>
                  <button type="button" onClick={() => onChange(columns.filter((_, place) => place !== at))}>
                    {profileWords.remove} <span className="unseen">{column.column || at + 1}</span>
                  </button>
                </td>
              </tr>
            );
          })}
        </tbody>
      </table>
      {!isSignals && (
        <datalist id="profile-fields">
          {FIELD_NAMES[kind].map((name) => (
            <option key={name} value={name} />
          ))}
        </datalist>
      )}
    </section>
  );
}
