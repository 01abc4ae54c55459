import { query } from '../api/client.js';
import { useMay } from '../session/session.js';
import { answerWords as said } from '../words/visit-answers.js';
import { weekday } from './weekday.js';

/** What the client said to the day that they are asked about now, for managers; nothing where they are not asked. */
export function ClientSaid({ visitId }: { visitId: string }) {
  const may = useMay();
  return may.manage ? <Said visitId={visitId} /> : null;
}

function Said({ visitId }: { visitId: string }) {
  const { data } = query.useQuery('get', '/api/proposed-visits');
  const proposal = data?.find((each) => each.visitId === visitId);
  if (proposal === undefined) return null;
  const { answer, answeredBy, reason, wishedDays } = proposal;
  const by = answeredBy ?? '';
  const inShort = answer === null ? said.inShort.waiting : answer === 'confirmed' ? said.inShort.suits(by) : said.inShort.suitsNot(by, reason);
  return (
    <small>
      {answer === 'declined' ? <strong>{inShort}</strong> : inShort}
      {wishedDays.length > 0 && `. ${said.wished(wishedDays.map(weekday).join(', '))}`}
    </small>
  );
}
