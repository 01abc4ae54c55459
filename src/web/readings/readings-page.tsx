import { Link } from 'wouter';
import { query } from '../api/client.js';
import { PageHead } from '../ui/page-head.js';
import { SkidPlace } from '../ui/skid-place.js';
import { Loaded } from '../ui/states.js';
import { words } from '../words.js';
import { HandForm } from './hand-form.js';

export default function ReadingsPage({ skidId }: { skidId: string }) {
  const sheet = query.useQuery('get', '/api/skids/{skidId}/hand-sheet', { params: { path: { skidId } } });
  return (
    <div className="narrow">
      <PageHead title={words.readings.enter} over={sheet.data && <SkidPlace skidId={skidId} skidName={sheet.data.skidName} siteName={sheet.data.siteName} />} />
      <Loaded of={sheet} what={words.readings.sheet}>
        {(found) => (
          <>
            {found.cautions.map((caution) => (
              <p key={caution} className="note-box">
                {caution}
              </p>
            ))}
            <p className="no-print">
              <Link href={`/skids/${skidId}/back-log`}>{words.backLog.title}</Link> · <Link href={`/skids/${skidId}/sheet`}>{words.readings.printSheet}</Link>
            </p>
            <HandForm key={skidId} sheet={found} />
          </>
        )}
      </Loaded>
    </div>
  );
}
