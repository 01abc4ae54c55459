import { useId } from 'react';
import { query, type Schemas } from '../api/client.js';
import { minutes } from '../format.js';
import { jobWords } from '../words/jobs.js';
import { words } from '../words.js';

type Head = Schemas['TaskSheetHeadView'];

const MOST = 200;

/** Tasks that have a sheet, chosen one after the other; with the sheet the job knows its time, parts, tools and cautions. */
export function SheetsToDo({ chosen, choose }: { chosen: readonly Head[]; choose: (sheets: readonly Head[]) => void }) {
  const id = useId();
  const sheets = query.useQuery('get', '/api/task-sheets', { params: { query: { limit: MOST } } });
  const left = (sheets.data?.items ?? []).filter((sheet) => sheet.endedOn === null && !chosen.some((each) => each.id === sheet.id));
  return (
    <div className="field">
      <label htmlFor={id}>{jobWords.sheets}</label>
      <p className="hint" id={`${id}-hint`}>
        {jobWords.sheetsHint}
      </p>
      {chosen.length > 0 && (
        <ul className="plain">
          {chosen.map((sheet) => (
            <li key={sheet.id}>
              {`${sheet.task}, ${minutes(sheet.usualMinutes)} `}
              <button type="button" onClick={() => choose(chosen.filter((each) => each !== sheet))}>
                {jobWords.leaveOut}
                <span className="unseen"> {sheet.task}</span>
              </button>
            </li>
          ))}
        </ul>
      )}
      <select
        id={id}
        aria-describedby={`${id}-hint`}
        value=""
        onChange={({ target }) => choose([...chosen, ...left.filter((sheet) => sheet.id === target.value)])}
      >
        <option value="">{words.choose}</option>
        {left.map((sheet) => (
          <option key={sheet.id} value={sheet.id}>
            {sheet.task}
          </option>
        ))}
      </select>
    </div>
  );
}
