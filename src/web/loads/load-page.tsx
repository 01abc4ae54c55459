import { query } from '../api/client.js';
import { PageHead } from '../ui/page-head.js';
import { SkidPlace } from '../ui/skid-place.js';
import { Loaded } from '../ui/states.js';
import { words } from '../words.js';
import { LoadForm } from './load-form.js';
import { PastLoads } from './past-loads.js';

export default function LoadPage({ skidId }: { skidId: string }) {
  const overview = query.useQuery('get', '/api/skids/{skidId}/overview', { params: { path: { skidId } } });
  return (
    <>
      <PageHead title={words.loads.title} over={overview.data && <SkidPlace skidId={skidId} skidName={overview.data.name} siteName={overview.data.siteName} />}>
        <p className="aside">{words.loads.note}</p>
      </PageHead>
      <Loaded of={overview} what={words.skid.what}>
        {(skid) => (
          <>
            <LoadForm skidId={skidId} timeZone={skid.timeZone} />
            <PastLoads skidId={skidId} timeZone={skid.timeZone} />
          </>
        )}
      </Loaded>
    </>
  );
}
