import { useState } from 'react';
import { query } from '../api/client.js';
import { IndicatorSheet } from '../ui/indicator-sheet.js';
import { lastDays, PeriodFields } from '../ui/period-fields.js';
import { Loaded } from '../ui/states.js';
import { upkeepWords as said } from '../words/upkeep.js';

/** How reliable a skid was and whether its work was done in time; to a client without the hours of the department, which the service does not tell them. */
export default function IndicatorSection({ skidId }: { skidId: string }) {
  const [period, setPeriod] = useState(() => lastDays(365));
  const isWhole = period.from !== '' && period.to !== '';
  const found = query.useQuery(
    'get',
    '/api/indicators',
    { params: { query: { skidId, ...period, count: 'stops' } } },
    { placeholderData: (before) => before, enabled: isWhole },
  );
  return (
    <>
      <div className="tools period-tools no-print">
        <PeriodFields period={period} onChange={setPeriod} />
      </div>
      <Loaded of={found} what={said.whatIndicators}>
        {({ indicators }) => <IndicatorSheet indicators={indicators} />}
      </Loaded>
    </>
  );
}
