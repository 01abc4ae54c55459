import { Link, useLocation } from 'wouter';
import { query } from '../api/client.js';
import { PageHead } from '../ui/page-head.js';
import { Loaded } from '../ui/states.js';
import { profileWords } from '../words/profiles.js';
import { words } from '../words.js';
import { ProfileForm } from './profile-form.js';

const NEW = 'new';

export default function ProfilePage({ skidId, profileId }: { skidId: string; profileId: string }) {
  const [, go] = useLocation();
  const list = `/skids/${skidId}/profiles`;
  const positions = query.useQuery('get', '/api/positions', { params: { query: { skidId, limit: 200 } } });
  const profile = query.useQuery('get', '/api/log-profiles/{id}', { params: { path: { id: profileId } } }, { enabled: profileId !== NEW });
  const over = <Link href={list}>{profileWords.title}</Link>;
  return (
    <Loaded of={positions} what={words.parts.what}>
      {({ items }) =>
        profileId === NEW ? (
          <>
            <PageHead title={profileWords.add} over={over} />
            <ProfileForm skidId={skidId} positions={items} onSaved={() => go(list)} />
          </>
        ) : (
          <Loaded of={profile} what={profileWords.what}>
            {(found) => (
              <>
                <PageHead title={found.name} over={over} />
                <ProfileForm key={found.version} skidId={skidId} profile={found} positions={items} onSaved={() => void profile.refetch()} />
              </>
            )}
          </Loaded>
        )
      }
    </Loaded>
  );
}
