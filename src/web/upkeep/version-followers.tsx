import { Link } from 'wouter';
import type { Schemas } from '../api/client.js';
import { useMay } from '../session/session.js';
import { type Column, Sheet } from '../ui/sheet.js';
import { ShowMore } from '../ui/show-more.js';
import { ruleWords as said } from '../words/rules.js';
import { skidRuleWords } from '../words/skid-rules.js';

type Follower = Schemas['FollowerView'];

const COLUMNS: readonly Column<Follower>[] = [
  { name: said.skid, cell: ({ id, name }) => <Link href={`/skids/${id}`}>{name}</Link> },
  { name: said.site, cell: ({ siteName }) => siteName },
  { name: said.client, cell: ({ clientName }) => clientName },
];

/** Which skids follow the version. */
export function VersionFollowers({ version: { id, publishedAt, skids } }: { version: Schemas['RuleSetVersionView'] }) {
  const may = useMay();
  return (
    <section className="block">
      <div className="block-head">
        <h2>{said.followers}</h2>
        {may.manage && publishedAt !== null && (
          <Link className="target no-print" href={`/rules/${id}/skids`}>
            {skidRuleWords.move}
          </Link>
        )}
      </div>
      {skids.length === 0 ? (
        <p className="aside">{said.noFollowers}</p>
      ) : (
        <ShowMore rows={skids}>{(shown) => <Sheet caption={said.followers} columns={COLUMNS} rows={shown} keyOf={({ id }) => id} />}</ShowMore>
      )}
    </section>
  );
}
