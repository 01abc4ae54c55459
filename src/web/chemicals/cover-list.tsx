import { lazy } from 'react';
import { Link } from 'wouter';
import type { Schemas } from '../api/client.js';
import { day, moment, number } from '../format.js';
import { useMay } from '../session/session.js';
import { addDays, siteToday } from '../site-time.js';
import { Opened } from '../ui/opened.js';
import { type Column, Sheet } from '../ui/sheet.js';
import { StandingTag } from '../ui/standing.js';
import { coverWords } from '../words/cover.js';
import { words } from '../words.js';

const TankEntry = lazy(() => import('./tank-entry.js'));

type Cover = Schemas['TankCoverView'];

/** What is worth a line in the list; the rest stands on the page of the tank. */
const SAYS_SOMETHING: readonly string[] = ['more', 'less', 'dips do not fit'];

const TANK: Column<Cover> = {
  name: words.chemicals.tank,
  cell: (tank) => (
    <>
      <Link href={`/tanks/${tank.tankId}`}>{tank.tankName}</Link>
      <small>
        {tank.chemical}
        {tank.suppliedBy === 'client' && `, ${coverWords.suppliedBy.toLowerCase()} ${coverWords.suppliers.client}`}
        {tank.fedFrom !== null && `, ${coverWords.dayTank(tank.fedFrom)}`}
      </small>
    </>
  ),
};
const SKID: Column<Cover> = {
  name: words.fleet.skid,
  cell: (tank) => (
    <>
      <Link href={`/skids/${tank.skidId}`}>{tank.skidName}</Link>
      <small>
        {tank.siteName}, {tank.clientName}
      </small>
    </>
  ),
};
const REST: readonly Column<Cover>[] = [
  { name: words.standing, cell: (tank) => <StandingTag standing={tank.standing} /> },
  {
    name: words.chemicals.runsOut,
    numeric: true,
    cell: (tank) => (
      <>
        {day(tank.runOutOn)}
        <small>{rangeOf(tank)}</small>
      </>
    ),
  },
  { name: words.chemicals.coverDays, numeric: true, cell: (tank) => number(tank.likelyDays) },
  {
    name: words.chemicals.volume,
    numeric: true,
    cell: (tank) => (
      <>
        {number(tank.volumeL)}
        <small>{words.chemicals.ofCapacity(number(tank.capacityL))}</small>
      </>
    ),
  },
  {
    name: words.chemicals.use,
    numeric: true,
    cell: (tank) => number(tank.dailyUseL, 1),
  },
  { name: words.chemicals.strength, numeric: true, cell: (tank) => number(tank.strengthGL) },
  {
    name: words.reason,
    wide: true,
    cell: (tank) => (
      <>
        <p>{tank.reason}</p>
        {tank.reminder !== null && <p>{tank.reminder.words}</p>}
        {SAYS_SOMETHING.includes(tank.balanceState) && <p>{tank.balanceWords}</p>}
        {tank.cautions.length > 0 && (
          <p className="caution">
            <strong>{words.chemicals.caution}</strong> {tank.cautions[0]}
          </p>
        )}
        {tank.cautions.length > 1 && (
          <details className="more">
            <summary>
              {coverWords.moreCautions}{' '}
              <span className="unseen">
                {tank.tankName}, {tank.skidName}
              </span>
            </summary>
            <ul>
              {tank.cautions.slice(1).map((caution) => (
                <li key={caution}>{caution}</li>
              ))}
            </ul>
          </details>
        )}
        <details className="more">
          <summary>
            {words.dues.basis} <span className="unseen">{`${tank.tankName}, ${tank.skidName}`}</span>
          </summary>
          <dl className="pairs">
            {pairsOf(tank).map(([name, value]) => (
              <div key={name}>
                <dt>{name}</dt>
                <dd>{value}</dd>
              </div>
            ))}
          </dl>
        </details>
        <TankActions tank={tank} />
      </>
    ),
  },
];

function TankActions({ tank }: { tank: Cover }) {
  const may = useMay();
  if (!may.enterDips) return null;
  return (
    <Opened
      what={words.form}
      summary={
        <>
          {words.events.tank} <span className="unseen">{tank.tankName}</span>
        </>
      }
    >
      <TankEntry tank={tank} />
    </Opened>
  );
}

/** Tanks by the day they run out. */
export function CoverList({ tanks, caption, ofOneSkid }: { tanks: readonly Cover[]; caption: string; ofOneSkid?: true }) {
  return <Sheet caption={caption} columns={ofOneSkid ? [TANK, ...REST] : [TANK, SKID, ...REST]} rows={tanks} keyOf={(tank) => tank.tankId} />;
}

/** The days between which it runs out in 8 of 10 cases. */
function rangeOf({ earlyDays, lateDays, timeZone }: Cover): string {
  if (earlyDays === null) return '';
  const today = siteToday(Date.now(), timeZone);
  const early = day(addDays(today, Math.floor(earlyDays)));
  return lateDays === null ? words.chemicals.from(early) : words.chemicals.between(early, day(addDays(today, Math.ceil(lateDays))));
}

const pairsOf = (tank: Cover): [string, string][] => [
  [words.chemicals.expected, `${number(tank.expectedUseL, 1)} L`],
  [words.chemicals.observed, `${number(tank.observedUseL, 1)} L`],
  [words.chemicals.lastDip, moment(tank.lastDipAt, tank.timeZone)],
  [words.chemicals.heel, `${number(tank.heelL)} L`],
];
