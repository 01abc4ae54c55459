import '../styles/upkeep.css';
import { useQueryClient } from '@tanstack/react-query';
import { Link, useLocation } from 'wouter';
import { cautionsFor } from '../../shared/cautions.js';
import { HAZARDS, TASK_KINDS, type TaskKind } from '../../shared/task-sheet.js';
import { api, query, type Schemas } from '../api/client.js';
import { ifMatch } from '../api/if-match.js';
import { Field } from '../ui/field.js';
import { PageHead } from '../ui/page-head.js';
import { Loaded } from '../ui/states.js';
import { Trouble } from '../ui/trouble.js';
import { useRequestKey } from '../ui/use-request-key.js';
import { sheetWords as said } from '../words/task-sheets.js';
import { words } from '../words.js';
import { bodyOfSheet, draftOf, EMPTY_SHEET, LINES } from './sheet-draft.js';
import { SheetSteps } from './sheet-steps.js';
import { SheetSuggestions } from './sheet-suggestions.js';
import { SheetChemicals, SheetParts } from './sheet-supplies.js';
import { type SheetForm, useSheetDraft } from './use-sheet-draft.js';

type Sheet = Schemas['TaskSheetView'];

/** The form of a task sheet: the next version of one, or, without an id, one that did not exist yet. */
export default function SheetEditPage({ sheetId }: { sheetId?: string }) {
  return sheetId === undefined ? <NewSheet /> : <NextVersion sheetId={sheetId} />;
}

function NextVersion({ sheetId }: { sheetId: string }) {
  const sheet = query.useQuery('get', '/api/task-sheets/{id}', { params: { path: { id: sheetId } } });
  return (
    <Loaded of={sheet} what={said.whatSheets}>
      {(found) => (
        <>
          <PageHead over={<Link href={`/task-sheets/${sheetId}`}>{found.task}</Link>} title={said.editTitle(found.task)}>
            <p className="hint">{said.editNote}</p>
          </PageHead>
          <SheetEditor key={found.version} sheet={found} />
        </>
      )}
    </Loaded>
  );
}

function NewSheet() {
  return (
    <>
      <PageHead over={<Link href="/task-sheets">{said.sheets}</Link>} title={said.makeTitle} />
      <SheetEditor />
    </>
  );
}

function SheetEditor({ sheet }: { sheet?: Sheet }) {
  const client = useQueryClient();
  const keyOf = useRequestKey();
  const [, go] = useLocation();
  const form = useSheetDraft({
    start: sheet === undefined ? EMPTY_SHEET : draftOf(sheet, sheet.latest),
    send: (draft) => {
      const content = bodyOfSheet(draft);
      if (sheet !== undefined) return api.PUT('/api/task-sheets/{id}', { params: { path: { id: sheet.id } }, headers: ifMatch(sheet), body: content });
      const body = { ...content, task: draft.task.trim() };
      return api.POST('/api/task-sheets', { params: { header: keyOf(body) }, body });
    },
    onDone: (saved) => {
      if (saved !== undefined) go(`/task-sheets/${saved.id}`);
      void client.invalidateQueries();
    },
  });
  return (
    <form noValidate onSubmit={(event) => void form.submit(event)}>
      <Trouble troubles={form.troubles} attempt={form.attempt} />
      {sheet !== undefined && <SheetSuggestions sheetId={sheet.id} into={{ draft: form.draft, change: form.changeRows }} />}
      <General form={form} isNew={sheet === undefined} />
      <SheetSteps form={form} />
      <SheetParts form={form} />
      <SheetChemicals form={form} />
      <Dangers form={form} />
      <div className="row">
        <button type="submit" className="main-button" disabled={form.isSending}>
          {sheet === undefined ? said.saveNew : said.save}
        </button>
        <Link className="target" href={sheet === undefined ? '/task-sheets' : `/task-sheets/${sheet.id}`}>
          {words.cancel}
        </Link>
      </div>
    </form>
  );
}

function General({ form, isNew }: { form: SheetForm; isNew: boolean }) {
  const { draft, change } = form;
  const whole = (name: 'usualMinutes' | 'crew' | 'waterOffMinutes', hint?: string) => (
    <Field {...form.field(name)} label={said[name]} hint={hint}>
      {(props) => <input {...props} value={draft[name]} inputMode="numeric" autoComplete="off" onChange={({ target }) => change({ [name]: target.value })} />}
    </Field>
  );
  return (
    <section className="block">
      <h2>{said.general}</h2>
      <div className="fields">
        {isNew && (
          <Field {...form.field('task')} label={said.task} hint={said.taskHint}>
            {(props) => <input {...props} value={draft.task} autoComplete="off" onChange={({ target }) => change({ task: target.value })} />}
          </Field>
        )}
        <Field {...form.field('kind')} label={said.kind} hint={said.kindHint}>
          {(props) => (
            <select {...props} value={draft.kind} onChange={({ target }) => change({ kind: target.value as TaskKind })}>
              {TASK_KINDS.map((kind) => (
                <option key={kind} value={kind}>
                  {kind}
                </option>
              ))}
            </select>
          )}
        </Field>
        {whole('usualMinutes', said.minutesHint)}
        {whole('crew')}
        {whole('waterOffMinutes', said.waterHint)}
        <Field {...form.field('note')} label={said.note}>
          {(props) => <textarea {...props} rows={2} value={draft.note} onChange={({ target }) => change({ note: target.value })} />}
        </Field>
      </div>
      <h3>{said.people}</h3>
      <div className="lists">
        {LINES.map((name) => (
          <Field key={name} {...form.field(name)} label={said[name]} hint={said.oneALine}>
            {(props) => <textarea {...props} rows={3} value={draft[name]} onChange={({ target }) => change({ [name]: target.value })} />}
          </Field>
        ))}
      </div>
    </section>
  );
}

/** Dangers are chosen; the cautions follow from them, from the kind of work and from the chemicals, and are shown as they will be read. */
function Dangers({ form: { draft, change } }: { form: SheetForm }) {
  const { kind, hazards, chemicals } = draft;
  const cautions = cautionsFor({ kinds: [kind], hazards, chemicals: chemicals.map(({ chemical }) => chemical).filter(Boolean) });
  return (
    <section className="block">
      <h2>{said.hazards}</h2>
      <p className="hint">{said.hazardsHint}</p>
      <div className="ticks">
        {HAZARDS.map((hazard) => (
          <label className="tick" key={hazard}>
            <input
              type="checkbox"
              checked={hazards.includes(hazard)}
              onChange={({ target }) => change({ hazards: target.checked ? [...hazards, hazard] : hazards.filter((each) => each !== hazard) })}
            />
            <span>{hazard}</span>
          </label>
        ))}
      </div>
      <h3>{said.cautions}</h3>
      <ul className="plain">
        {cautions.map(({ about, text }) => (
          <li key={text}>
            <strong>{about}.</strong> {text}
          </li>
        ))}
      </ul>
    </section>
  );
}
