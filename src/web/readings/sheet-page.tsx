import { query } from '../api/client.js';
import { day, moment, written } from '../format.js';
import { siteToday } from '../site-time.js';
import { PageHead } from '../ui/page-head.js';
import { SkidPlace } from '../ui/skid-place.js';
import { Loaded } from '../ui/states.js';
import { words } from '../words.js';
import type { Sheet } from './hand-fields.js';

const BOXES = [1, 2, 3, 4, 5] as const;

/** A sheet of paper for the gauges of one skid: a column for each round, filled in with a pen and typed in later. */
export default function SheetPage({ skidId }: { skidId: string }) {
  const sheet = query.useQuery('get', '/api/skids/{skidId}/hand-sheet', { params: { path: { skidId } } });
  return (
    <Loaded of={sheet} what={words.readings.sheet}>
      {(found) => (
        <>
          <PageHead
            title={words.readings.sheetTitle(found.skidName)}
            over={<SkidPlace skidId={skidId} skidName={found.skidName} siteName={found.siteName} />}
            facts={[{ name: words.readings.printed, value: day(siteToday(Date.now(), found.timeZone)) }]}
          />
          <p className="row no-print">
            <button type="button" className="main-button" onClick={() => print()}>
              {words.readings.print}
            </button>
          </p>
          {found.cautions.map((caution) => (
            <p key={caution} className="note-box">
              {caution}
            </p>
          ))}
          <PaperSheet sheet={found} />
          <p className="hint">{words.readings.sheetNote(found.timeZone)}</p>
        </>
      )}
    </Loaded>
  );
}

function PaperSheet({ sheet }: { sheet: Sheet }) {
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: a box that scrolls must be reachable by keyboard
    <section className="sheet-hold" tabIndex={0} aria-label={words.readings.sheet}>
      <table className="sheet paper">
        <caption className="unseen">{words.readings.sheetTitle(sheet.skidName)}</caption>
        <thead>
          <tr>
            <th scope="col">{words.readings.gauge}</th>
            <th scope="col">{words.readings.unit}</th>
            <th scope="col" className="n">
              {words.readings.lastValue}
            </th>
            {BOXES.map((box) => (
              <th scope="col" key={box}>
                <span className="unseen">{words.readings.round(box)}</span>
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {rowsOf(sheet).map(({ name, unit, last, at }) => (
            <tr key={name}>
              <th scope="row">{name}</th>
              <td>{unit}</td>
              <td className="n">
                {last}
                <small>{at}</small>
              </td>
              {BOXES.map((box) => (
                <td key={box} />
              ))}
            </tr>
          ))}
        </tbody>
      </table>
    </section>
  );
}

interface PaperRow {
  readonly name: string;
  readonly unit: string;
  readonly last?: string;
  readonly at?: string;
}

function rowsOf(sheet: Sheet): PaperRow[] {
  const last = (value: number | null, at: string | null) => (value === null ? {} : { last: written(value), at: moment(at, sheet.timeZone) });
  return [
    { name: words.readings.at, unit: '' },
    { name: words.readings.readBy, unit: '' },
    ...(sheet.asksMinutesSinceBackwash ? [{ name: words.readings.sinceBackwash, unit: 'min' }] : []),
    ...sheet.gauges.map((gauge) => ({ name: gauge.label, unit: gauge.unitLabel, ...last(gauge.lastValue, gauge.lastAt) })),
    ...sheet.meters.map((meter) => ({ name: meter.label, unit: meter.kind === 'run hours' ? 'h' : '', ...last(meter.lastValue, meter.lastAt) })),
    ...sheet.tanks.flatMap((tank) => [
      { name: words.readings.level(tank.label), unit: 'cm', ...last(tank.lastLevelM === null ? null : tank.lastLevelM * 100, tank.lastAt) },
      { name: words.readings.strength(tank.label), unit: 'g/L', ...last(tank.lastStrengthGL, tank.lastAt) },
    ]),
    { name: words.readings.note, unit: '' },
  ];
}
