import { query } from '../../api/client.js';
import { moment } from '../../format.js';
import { Loaded } from '../../ui/states.js';
import { travelWords as said } from '../../words/travel.js';

const ZONE = Intl.DateTimeFormat().resolvedOptions().timeZone;

/** Whether the service that knows roads answers, in words. */
export function ServiceState() {
  const service = query.useQuery('get', '/api/planning/travel/service');
  return (
    <section className="block">
      <h2>{said.service}</h2>
      <Loaded of={service} what={said.whatService}>
        {({ isSetUp, askedAt, answeredAt, said: wrong }) => {
          if (!isSetUp) return <p>{said.notSetUp}</p>;
          if (askedAt === null) return <p>{said.notAsked}</p>;
          if (wrong === null) return <p>{said.works(moment(answeredAt, ZONE))}</p>;
          return (
            <div className="note-box">
              <p>{said.wrong(wrong)}</p>
              <p>{answeredAt === null ? said.noAnswer : said.lastAnswer(moment(answeredAt, ZONE))}</p>
            </div>
          );
        }}
      </Loaded>
    </section>
  );
}
