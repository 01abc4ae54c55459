import { Link } from 'wouter';
import type { Schemas } from '../api/client.js';
import { day, number, written } from '../format.js';
import { siteToday } from '../site-time.js';
import type { Column } from '../ui/sheet.js';
import { reorderWords as said } from '../words/reorder.js';
import { storeWords } from '../words/store.js';
import { words } from '../words.js';
import { amount } from './amount.js';
import { DecideCell } from './decide-cell.js';

export type ReorderLine = Schemas['ReorderLineView'];

const today = () => siteToday(Date.now(), Intl.DateTimeFormat().resolvedOptions().timeZone);

export const REORDER_COLUMNS: readonly Column<ReorderLine>[] = [
  {
    name: storeWords.item,
    cell: ({ itemId, itemCode, itemName, placeName }) => (
      <>
        <Link href={`/stock/items/${itemId}`}>{itemName}</Link>
        <small>
          {itemCode}, {placeName}
        </small>
      </>
    ),
  },
  { name: said.do, cell: (line) => <WhatToDo line={line} /> },
  { name: said.orderBy, short: true, cell: ({ orderBy, action }) => <OrderBy on={action === 'nothing' ? null : orderBy} /> },
  { name: said.neededBy, short: true, cell: ({ neededBy }) => day(neededBy) },
  { name: said.why, wide: true, cell: (line) => <Why line={line} /> },
  { name: said.stock, cell: (line) => <ThereIs line={line} /> },
  { name: said.waits, wide: true, cell: (line) => <IfItWaits line={line} /> },
  { name: said.decide, cell: (line) => <DecideCell line={line} /> },
];

function WhatToDo({ line }: { line: ReorderLine }) {
  const { action, quantity, unit, purchase, transfers } = line;
  if (action === 'nothing') return said.enough;
  return (
    <>
      <strong>{action === 'buy' ? said.buy(amount(quantity, unit)) : said.bring(amount(quantity, unit))}</strong>
      {transfers.map((from) => (
        <small key={from.fromPlaceId}>{said.from(from.fromPlaceName, amount(from.quantity, unit))}</small>
      ))}
      {purchase !== null && (
        <>
          <small>
            {said.purchase(purchase.supplierName, written(Number(purchase.quantity)), storeWords.unitName(purchase.unit))}
            {purchase.value !== null && `, ${said.value(number(Number(purchase.value), 2), purchase.currency)}`}
          </small>
          <small>{said.leadTime(number(purchase.leadP50), number(purchase.leadP90))}</small>
          {purchase.wouldExpire !== null && <small>{said.wouldExpire(amount(purchase.wouldExpire, unit))}</small>}
        </>
      )}
      {action === 'buy' && purchase === null && <small>{said.noOffer}</small>}
    </>
  );
}

function OrderBy({ on }: { on: string | null }) {
  if (on === null) return words.none;
  const now = today();
  if (on > now) return day(on);
  return (
    <>
      <strong>{on === now ? said.today : day(on)}</strong>
      {on < now && <small>{said.late}</small>}
    </>
  );
}

/** Work, outlooks, tanks and use, the most first. */
function Why({ line: { reasons, reasonsLeft, unit, partsLasted } }: { line: ReorderLine }) {
  const expected = (value: number) => amount(Number(value.toFixed(value < 1 ? 2 : 1)), unit);
  return (
    <>
      {reasons.length === 0 && said.noReason}
      {reasons.map((reason) => (
        <span key={`${reason.kind} ${reason.text} ${reason.skidId} ${reason.day}`} className="line">
          {said.reason(reason.text, expected(reason.expected))}
          {reason.skidId !== null && (
            <>
              {', '}
              <Link href={`/skids/${reason.skidId}`}>{reason.skidName}</Link>
            </>
          )}
          {reason.day !== null && `, ${reason.kind === 'outlook' ? said.around(day(reason.day)) : said.on(day(reason.day))}`}
        </span>
      ))}
      {reasonsLeft > 0 && <span className="line">{said.more(reasonsLeft)}</span>}
      {partsLasted !== null && partsLasted !== 0 && (
        <small>{(partsLasted > 0 ? said.ranLate : said.ranEarly)(`${number(Math.abs(partsLasted) * 100)} %`)}</small>
      )}
    </>
  );
}

function ThereIs({ line: { onHand, point, unit, onOrder, onTheWay, reserved, expiring } }: { line: ReorderLine }) {
  const coming = Number(onOrder) + Number(onTheWay);
  return (
    <>
      {said.there(amount(onHand, unit), amount(Math.max(0, point), unit))}
      {coming > 0 && <small>{said.coming(amount(coming, unit))}</small>}
      {Number(reserved) > 0 && <small>{said.reserved(amount(reserved, unit))}</small>}
      {Number(expiring) > 0 && <small>{said.expiring(amount(expiring, unit))}</small>}
    </>
  );
}

function IfItWaits({ line: { ifItWaits, pace, unit } }: { line: ReorderLine }) {
  if (ifItWaits !== null) return ifItWaits.text || words.none;
  if (pace.kind === 'moving') return words.none;
  return (
    <>
      {pace.kind === 'slow' ? said.slow(number(pace.yearsOfNeed, 1)) : pace.idleMonths === null ? said.neverUsed : said.dead(number(pace.idleMonths))}
      {pace.tooMuch !== null && <small>{said.tooMuch(amount(pace.tooMuch, unit))}</small>}
    </>
  );
}
