import { day } from '../../../shared/format.js';

interface LetterLine {
  readonly no: number;
  readonly itemCode: string;
  readonly itemName: string;
  readonly supplierCode: string;
  readonly quantity: string;
  readonly unit: string;
  readonly price: string | null;
  readonly neededOn: string | null;
}

export interface LetterOrder {
  readonly no: number;
  readonly currency: string;
  readonly customerNumber: string;
  readonly deliverTo: string;
  readonly note: string;
  readonly by: string;
  readonly value: string;
  readonly lines: readonly LetterLine[];
}

export interface Letter {
  readonly subject: string;
  readonly text: string;
}

const lineText = ({ no, itemCode, itemName, supplierCode, quantity, unit, price, neededOn }: LetterLine, currency: string): string =>
  [
    `${no}. ${quantity} ${unit}  ${supplierCode === '' ? itemCode : supplierCode}  ${itemName}`,
    ...(supplierCode === '' ? [] : [`   our code ${itemCode}`]),
    ...(price === null ? [] : [`   ${price} ${currency} each`]),
    ...(neededOn === null ? [] : [`   needed on ${day(neededOn)}`]),
  ].join('\n');

/** An order as an e-mail: all that the supplier needs, also where the reader opens no attachment. */
export function orderLetter({ no, currency, customerNumber, deliverTo, note, by, value, lines }: LetterOrder): Letter {
  const parts = [
    `Purchase order ${no}${customerNumber === '' ? '' : `, our customer number ${customerNumber}`}`,
    lines.map((line) => lineText(line, currency)).join('\n'),
    `Total without taxes: ${value} ${currency}`,
    `Deliver to: ${deliverTo}`,
    ...(note === '' ? [] : [note]),
    `Please confirm the order and the day of delivery, and name the order number on the delivery note.`,
    by,
  ];
  return { subject: `Purchase order ${no}`, text: parts.join('\n\n') };
}

export interface ChasedOrder {
  readonly no: number;
  readonly sentOn: string;
  readonly expectedOn: string;
  readonly promised: boolean;
  readonly by: string;
  /** What is still to come, in units of use */
  readonly open: readonly {
    readonly itemCode: string;
    readonly itemName: string;
    readonly supplierCode: string;
    readonly quantity: string;
    readonly unit: string;
  }[];
}

/** What is written to a supplier whose delivery is late. */
export function chaseLetter({ no, sentOn, expectedOn, promised, by, open }: ChasedOrder): Letter {
  const parts = [
    `Purchase order ${no} of ${day(sentOn)} has not come in full. ${promised ? `You promised it for ${day(expectedOn)}.` : `By your delivery time it was due on ${day(expectedOn)}.`}`,
    [
      'Still to come:',
      ...open.map(
        ({ itemCode, itemName, supplierCode, quantity, unit }) => `- ${quantity} ${unit}  ${supplierCode === '' ? itemCode : supplierCode}  ${itemName}`,
      ),
    ].join('\n'),
    'Please tell us the day on which it will be here, for each of these lines.',
    by,
  ];
  return { subject: `Purchase order ${no}: when will it come?`, text: parts.join('\n\n') };
}
