import { query } from '../api/client.js';

/** What lies at a place and must not meet; nothing where nothing speaks against it, or no place is chosen. */
export function PlaceCautions({ placeId }: { placeId: string | undefined }) {
  const { data } = query.useQuery('get', '/api/places/{id}/cautions', { params: { path: { id: placeId ?? '' } } }, { enabled: placeId !== undefined });
  return (
    <div role="status">
      {placeId !== undefined &&
        data?.cautions.map((text) => (
          <p key={text} className="caution">
            {text}
          </p>
        ))}
    </div>
  );
}
