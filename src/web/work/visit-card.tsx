import { useId } from 'react';
import { minutes, written } from '../format.js';
import { words } from '../words.js';
import { JobLink, type JobMark } from './job-link.js';
import type { VisitAhead } from './sheet-types.js';

/** One visit: where and when, how to get in, its jobs, and what to take along. */
export function VisitCard({ visit, markOf }: { visit: VisitAhead; markOf: (jobId: string) => JobMark | undefined }) {
  const headId = useId();
  const facts = [
    { name: words.work.access, value: visit.accessHours },
    { name: words.work.visitNote, value: visit.note },
    { name: words.work.with, value: visit.people.length > 1 ? visit.people.map(({ name }) => name).join(', ') : '' },
  ].filter(({ value }) => value !== '');
  return (
    <article className="block visit" aria-labelledby={headId}>
      <h3 id={headId}>{words.work.visitAt(visit.startTime, visit.siteName)}</h3>
      <p className="aside">{[visit.clientName, words.work.takes(minutes(visit.minutes)), visit.state].join(' · ')}</p>
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
          <JobLink key={jobId} jobId={jobId} title={words.work.job(no, title)} place={skidName} mark={markOf(jobId)} />
        ))}
      </ul>
      {visit.jobs.length === 0 && <p className="aside">{words.work.allDone}</p>}
      <KitList kit={visit.kit} />
    </article>
  );
}

function KitList({ kit }: { kit: VisitAhead['kit'] }) {
  const plain = [
    { name: words.work.chemicals, lines: kit.chemicals.map(({ chemical, litres, strength }) => words.work.amountOf(chemical, written(litres), strength)) },
    { name: words.work.tools, lines: kit.tools },
    { name: words.work.instruments, lines: kit.instruments },
  ].filter(({ lines }) => lines.length > 0);
  if (kit.items.length === 0 && plain.length === 0) return null;
  return (
    <details className="more">
      <summary>{words.work.kit}</summary>
      {kit.keepApart.map(({ chemicals, happens }) => (
        <p key={chemicals.join()} className="caution">
          <strong>{words.work.keepApart}</strong> {chemicals.join(', ')}: {happens}
        </p>
      ))}
      {kit.items.length > 0 && (
        <>
          <h4>{words.work.kitParts}</h4>
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

function whereFrom({ inVan, toPick, short }: VisitAhead['kit']['items'][number]): string {
  const parts: [string, (quantity: string) => string][] = [
    [inVan, words.work.kitInVan],
    [toPick, words.work.kitTake],
    [short, words.work.kitShort],
  ];
  return parts.flatMap(([quantity, say]) => (Number(quantity) > 0 ? [say(written(Number(quantity)))] : [])).join(', ');
}
