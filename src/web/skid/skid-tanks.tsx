import { query } from '../api/client.js';
import { CoverList } from '../chemicals/cover-list.js';
import { Empty, Loaded } from '../ui/states.js';
import { words } from '../words.js';

export function SkidTanks({ skidId }: { skidId: string }) {
  const tanks = query.useQuery('get', '/api/tanks/cover', { params: { query: { skidId, limit: 200 } } });
  return (
    <section className="block">
      <h2>{words.chemicals.ofSkid}</h2>
      <Loaded of={tanks} what={words.chemicals.what}>
        {(list) =>
          list.items.length === 0 ? (
            <Empty title={words.chemicals.empty}>{words.chemicals.emptyWhy}</Empty>
          ) : (
            <CoverList tanks={list.items} caption={words.chemicals.ofSkid} ofOneSkid />
          )
        }
      </Loaded>
    </section>
  );
}
