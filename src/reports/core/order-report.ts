import { day, moment, number } from '../../shared/format.js';
import { unitInWords } from '../../store/core/supply/unit-in-words.js';
import type { Block, Fact, ReportDocument } from './document.js';
import { words } from './words.js';

/** What a purchase order says on paper. */
export interface OrderFacts {
  readonly no: number;
  readonly supplierName: string;
  readonly customerNumber: string;
  readonly placeName: string;
  readonly currency: string;
  readonly value: string;
  readonly note: string;
  readonly sentAt: Date | null;
  readonly approvedBy: string | null;
  readonly lines: readonly {
    readonly no: number;
    readonly itemCode: string;
    readonly itemName: string;
    readonly supplierCode: string;
    readonly quantity: string;
    readonly unit: string;
    readonly useUnit: string;
    readonly unitsPerPurchase: string;
    readonly price: string | null;
    readonly neededOn: string | null;
  }[];
}

/** A purchase order to print, or to send on paper. One that was not sent says so, so that nobody delivers on a draft. */
export function orderReport(order: OrderFacts, { now, timeZone }: { readonly now: Date; readonly timeZone: string }): ReportDocument {
  const { order: names } = words;
  const title = names.title(number(order.no));
  const blocks: Block[] = [
    ...(order.sentAt === null ? [{ kind: 'paragraph', text: names.draft, tone: 'caution' } as const] : []),
    { kind: 'facts', facts: factsOf(order, timeZone) },
    linesOf(order),
    { kind: 'paragraph', text: names.total(order.value, order.currency), tone: 'lead' },
    ...(order.note === '' ? [] : [{ kind: 'paragraph', text: order.note } as const]),
    { kind: 'paragraph', text: names.confirm, tone: 'soft' },
  ];
  return {
    title,
    place: order.supplierName,
    running: words.running(title, order.supplierName),
    made: words.made(moment(now, timeZone)),
    madeAtMs: now.getTime(),
    blocks,
  };
}

function factsOf({ supplierName, customerNumber, placeName, sentAt, approvedBy }: OrderFacts, timeZone: string): Fact[] {
  const { order: names } = words;
  return [
    [names.supplier, supplierName],
    ...(customerNumber === '' ? [] : [[names.customerNumber, customerNumber] as const]),
    [names.deliverTo, placeName],
    [names.orderedOn, sentAt === null ? words.none : moment(sentAt, timeZone)],
    [names.approvedBy, approvedBy ?? words.none],
  ];
}

function linesOf({ lines, currency }: OrderFacts): Block {
  const { order: names } = words;
  return {
    kind: 'table',
    caption: names.lines,
    columns: [
      { name: names.no, numeric: true },
      { name: names.yourCode },
      { name: names.item },
      { name: names.quantity, numeric: true },
      { name: names.unit },
      { name: names.price(currency), numeric: true },
      { name: names.neededOn },
    ],
    rows: lines.map(({ no, itemCode, itemName, supplierCode, quantity, price, neededOn, ...packed }) => [
      number(no),
      supplierCode,
      `${itemName} (${itemCode})`,
      quantity,
      unitInWords(packed),
      price ?? '',
      neededOn === null ? '' : day(neededOn),
    ]),
  };
}
