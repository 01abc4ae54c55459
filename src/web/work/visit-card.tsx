import { useId } from 'react';
import { minutes, written } from '../format.js';
import { workWords } from '../words/work.js';
import { words } from '../words.js';
import { JobLink, type JobMark } from './job-link.js';
import type { VisitAhead } from './sheet-types.js';

/** One visit: where and when, how to get in, its jobs, and what to take along. */
export function VisitCard({ visit, markOf }: { visit: VisitAhead; markOf: (jobId: string) => JobMark | undefined }) {
  const headId = useId();
  const facts = [
    { name: workWords.access, value: visit.accessHours },
    { name: workWords.visitNote, value: visit.note },
    { name: workWords.with, value: visit.people.length > 1 ? visit.people.map(({ name }) => name).join(', ') : '' },
  ].filter(({ value }) => value !== '');
  return (
    <article className="block visit" aria-labelledby={headId}>
      <h3 id={headId}>{workWords.visitAt(visit.startTime, visit.siteName)}</h3>
      <p className="aside">{[visit.clientName, workWords.takes(minutes(visit.minutes)), visit.state].join(' · ')}</p>
      {facts.length > 0 && (
        <dl className="visit-facts">
          {facts.map(({ name, value }) => (
            <div key={name}>
              <dt>{name}</dt>
              <dd>{value}</dd>
            </div>
          ))}
        </dl>
      )}
      <ul className="jobs">
        {visit.jobs.map(({ jobId, no, title, skidName }) => (
          <JobLink key={jobId} jobId={jobId} title={workWords.job(no, title)} place={skidName} mark={markOf(jobId)} />
        ))}
      </ul>
      {visit.jobs.length === 0 && <p className="aside">{workWords.allDone}</p>}
      <KitList kit={visit.kit} />
    </article>
  );
}

function KitList({ kit }: { kit: VisitAhead['kit'] }) {
  const plain = [
    { name: workWords.chemicals, lines: kit.chemicals.map(({ chemical, litres, strength }) => workWords.amountOf(chemical, written(litres), strength)) },
    { name: workWords.tools, lines: kit.tools },
    { name: workWords.instruments, lines: kit.instruments },
  ].filter(({ lines }) => lines.length > 0);
  if (kit.items.length === 0 && plain.length === 0) return null;
  return (
    <details className="more">
      <summary>{workWords.kit}</summary>
      {kit.keepApart.map(({ chemicals, happens }) => (
        <p key={chemicals.join()} className="caution">
          <strong>{workWords.keepApart}</strong> {chemicals.join(', ')}: {happens}
        </p>
      ))}
      {kit.items.length > 0 && (
        <>
          <h4>{workWords.kitParts}</h4>
          <ul>
            {kit.items.map((item) => (
              <li key={item.itemId}>
                {words.dues.part(written(Number(item.quantity)), item.unit, item.name, item.code)}
                <small>{whereFrom(item)}</small>
              </li>
            ))}
          </ul>
        </>
      )}
      {plain.map(({ name, lines }) => (
        <div key={name}>
          <h4>{name}</h4>
          <ul>
            {lines.map((line) => (
              <li key={line}>{line}</li>
            ))}
          </ul>
        </div>
      ))}
    </details>
  );
}

type KitItem = VisitAhead['kit']['items'][number];

/** Sheets that a device has kept from before other vans were told of do not have them. */
type KeptItem = Omit<KitItem, 'otherVans'> & Partial<Pick<KitItem, 'otherVans'>>;

function whereFrom({ inVan, toPick, otherVans = [], short }: KeptItem): string {
  const amounts: [string, (quantity: string) => string][] = [
    [inVan, workWords.kitInVan],
    [toPick, workWords.kitTake],
    ...otherVans.map(({ name, quantity }): (typeof amounts)[number] => [quantity, (size) => workWords.kitHandOver(size, name)]),
    [short, workWords.kitShort],
  ];
  return amounts.flatMap(([quantity, say]) => (Number(quantity) > 0 ? [say(written(Number(quantity)))] : [])).join(', ');
}
