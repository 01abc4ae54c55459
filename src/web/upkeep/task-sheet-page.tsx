import '../styles/upkeep.css';
import { Link } from 'wouter';
import { cautionsFor } from '../../shared/cautions.js';
import type { Hazard, TaskKind } from '../../shared/task-sheet.js';
import { query, type Schemas } from '../api/client.js';
import { day, minutes, number } from '../format.js';
import { useMay } from '../session/session.js';
import { PageHead } from '../ui/page-head.js';
import { type Column, Sheet as Table } from '../ui/sheet.js';
import { ShowMore } from '../ui/show-more.js';
import { Loaded } from '../ui/states.js';
import { useChoices } from '../ui/use-choices.js';
import { sheetWords } from '../words/task-sheets.js';
import { upkeepWords as said } from '../words/upkeep.js';
import { SheetContents } from './sheet-contents.js';
import { SheetSuggestions } from './sheet-suggestions.js';

type Sheet = Schemas['TaskSheetView'];
type Head = Schemas['SheetVersionHeadView'];

/** One task: its steps, what it takes, what to mind, and what finished work says against it. An older version is shown when it is chosen. */
export default function TaskSheetPage({ sheetId }: { sheetId: string }) {
  const sheet = query.useQuery('get', '/api/task-sheets/{id}', { params: { path: { id: sheetId } } });
  return (
    <Loaded of={sheet} what={said.whatSheets}>
      {(found) => <OneSheet sheet={found} />}
    </Loaded>
  );
}

function OneSheet({ sheet }: { sheet: Sheet }) {
  const { id, latest } = sheet;
  const asked = Number(useChoices<'version'>().of('version') ?? latest.no);
  const isLatest = asked === latest.no;
  const older = query.useQuery('get', '/api/task-sheets/{id}/versions/{no}', { params: { path: { id, no: asked } } }, { enabled: !isLatest });
  return (
    <>
      {isLatest ? (
        <OneVersion sheet={sheet} version={latest} />
      ) : (
        <Loaded of={older} what={said.whatSheets}>
          {(version) => <OneVersion sheet={sheet} version={version} />}
        </Loaded>
      )}
      {isLatest && <SheetSuggestions sheetId={id} />}
      <Versions sheet={sheet} />
    </>
  );
}

function OneVersion({ sheet, version }: { sheet: Sheet; version: Schemas['SheetVersionView'] }) {
  const may = useMay();
  const isLatest = version.no === sheet.latest.no;
  const facts = [
    { name: said.kind, value: sheet.kind },
    { name: said.minutes, value: minutes(version.usualMinutes) },
    { name: said.crew, value: number(version.crew) },
    { name: said.waterOff, value: number(version.waterOffMinutes) },
    { name: said.version, value: number(version.no) },
  ];
  const cautions = cautionsFor({
    kinds: [sheet.kind as TaskKind],
    chemicals: version.chemicals.map(({ chemical }) => chemical),
    hazards: version.hazards as Hazard[],
  });
  return (
    <>
      <PageHead over={<Link href="/task-sheets">{sheetWords.sheets}</Link>} title={sheet.task} facts={facts}>
        {version.note !== '' && <p className="hint">{version.note}</p>}
      </PageHead>
      {may.manage && isLatest && sheet.endedOn === null && (
        <p className="no-print">
          <Link className="target" href={`/task-sheets/${sheet.id}/edit`}>
            {sheetWords.edit}
          </Link>
        </p>
      )}
      {!isLatest && (
        <p className="note-box">
          {sheetWords.older(version.no, sheet.latest.no)} <Link href={`/task-sheets/${sheet.id}`}>{sheetWords.toLatest}</Link>
        </p>
      )}
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
      <SheetContents version={version} />
    </>
  );
}

function Versions({ sheet: { id, latest, versions } }: { sheet: Sheet }) {
  const columns: readonly Column<Head>[] = [
    {
      name: sheetWords.versionNo,
      cell: ({ no }) => <Link href={no === latest.no ? `/task-sheets/${id}` : `/task-sheets/${id}?version=${no}`}>{sheetWords.version(no)}</Link>,
    },
    { name: sheetWords.madeOn, cell: ({ createdAt }) => day(createdAt.slice(0, 10)) },
    { name: sheetWords.madeBy, cell: ({ createdBy }) => createdBy },
  ];
  return (
    <section className="block">
      <h2>{sheetWords.versions}</h2>
      <ShowMore rows={versions}>{(shown) => <Table caption={sheetWords.versions} columns={columns} rows={shown} keyOf={(head) => head.id} />}</ShowMore>
    </section>
  );
}
