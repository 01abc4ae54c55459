import { query } from '../api/client.js';
import { useMay } from '../session/session.js';
import { PageHead } from '../ui/page-head.js';
import { Loaded } from '../ui/states.js';
import { noticeWords as said } from '../words/notices.js';
import { CalendarAddresses } from './calendar-addresses.js';
import { ChoiceForm } from './choice-form.js';
import { Messages } from './messages.js';

/** What a person is told, and where; for managers, what was written and what became of it. */
export default function NoticesPage() {
  const may = useMay();
  const choice = query.useQuery('get', '/api/me/notices');
  return (
    <>
      <PageHead title={said.title} />
      <section className="block">
        <h2>{said.own}</h2>
        <Loaded of={choice} what={said.whatOwn}>
          {(found) => <ChoiceForm choice={found} />}
        </Loaded>
      </section>
      <CalendarAddresses />
      {may.manage && <Messages />}
    </>
  );
}
