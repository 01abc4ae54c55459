import { Link } from 'wouter';
import { query } from '../api/client.js';
import { PageHead } from '../ui/page-head.js';
import { SkidPlace } from '../ui/skid-place.js';
import { Empty, Loaded } from '../ui/states.js';
import { profileWords } from '../words/profiles.js';

export default function ProfilesPage({ skidId }: { skidId: string }) {
  const overview = query.useQuery('get', '/api/skids/{skidId}/overview', { params: { path: { skidId } } });
  const profiles = query.useQuery('get', '/api/log-profiles', { params: { query: { skidId, limit: 200 } } });
  return (
    <>
      <PageHead
        title={profileWords.title}
        over={overview.data && <SkidPlace skidId={skidId} skidName={overview.data.name} siteName={overview.data.siteName} />}
      >
        <p className="aside">{profileWords.note}</p>
      </PageHead>
      <section className="block">
        <Loaded of={profiles} what={profileWords.what}>
          {({ items }) =>
            items.length === 0 ? (
              <Empty title={profileWords.empty}>{profileWords.emptyWhy}</Empty>
            ) : (
              <ul className="places">
                {items.map((profile) => (
                  <li key={profile.id}>
                    <Link href={`/skids/${skidId}/profiles/${profile.id}`}>{profile.name}</Link>
                    <small>{profileWords.values[profile.kind]}</small>
                  </li>
                ))}
              </ul>
            )
          }
        </Loaded>
        <p>
          <Link href={`/skids/${skidId}/profiles/new`}>{profileWords.add}</Link>
        </p>
      </section>
    </>
  );
}
