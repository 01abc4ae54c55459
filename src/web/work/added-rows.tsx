import { type ReactNode, useId } from 'react';
import { newUuid } from '../new-uuid.js';
import { workWords } from '../words/work.js';
import { type Draft, rowsOf } from './draft.js';
import { useSheetForm } from './sheet-form.js';

interface AddedRowsProps {
  readonly list: string;
  readonly title: string;
  readonly addLabel: string;
  /** What one row is called, for the button that takes it away */
  readonly rowName: string;
  readonly start?: Readonly<Record<string, string>>;
  readonly children: (row: string) => ReactNode;
}

/** Rows that no task asked for. Closed while there are none, so that the sheet stays short. */
export function AddedRows({ list, title, addLabel, rowName, start = {}, children }: AddedRowsProps) {
  const { draft, add, remove } = useSheetForm();
  const headId = useId();
  const rows = addedRows(draft, list);
  return (
    <section className="added" aria-labelledby={headId}>
      <h3 id={headId}>{title}</h3>
      {rows.map((row, at) => (
        <div className="added-row" key={row}>
          {children(row)}
          <button type="button" onClick={() => remove(list, row)}>
            {workWords.remove}
            <span className="unseen">
              : {rowName} {at + 1}
            </span>
          </button>
        </div>
      ))}
      <button type="button" onClick={() => add(list, newUuid(), start)}>
        {addLabel}
      </button>
    </section>
  );
}

const addedRows = (draft: Draft, list: string): string[] => rowsOf(draft, list).filter((row) => draft.sheet.tasks.every(({ taskId }) => taskId !== row));
