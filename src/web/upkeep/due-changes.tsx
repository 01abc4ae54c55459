import type { Schemas } from '../api/client.js';
import { number } from '../format.js';
import { type Column, Sheet } from '../ui/sheet.js';
import { skidRuleWords as said } from '../words/skid-rules.js';

type Change = Schemas['DueChangeView'];

const counted = (field: 'added' | 'gone' | 'earlier' | 'later' | 'same'): Column<Change> => ({
  name: said[field],
  numeric: true,
  cell: (change) => number(change[field]),
});
const COLUMNS: readonly Column<Change>[] = [
  { name: said.skid, cell: ({ skidName }) => skidName },
  { name: said.followsNow, cell: ({ follows }) => follows ?? said.none },
  ...(['added', 'gone', 'earlier', 'later', 'same'] as const).map(counted),
];

/** Skid by skid, what would become of the lines of the due list. */
export function DueChanges({ preview: { skids, added, gone, earlier, later } }: { preview: Schemas['FollowPreviewView'] }) {
  return (
    <>
      <p role="status">
        <strong>{added + gone + earlier + later === 0 ? said.nothingChanges : said.inAll(skids.length, added, gone, earlier, later)}</strong>
      </p>
      <div className="choices">
        <Sheet caption={said.previewNote} columns={COLUMNS} rows={skids} keyOf={({ skidId }) => skidId} />
      </div>
    </>
  );
}
