import { randomUUID } from 'node:crypto';
import fc from 'fast-check';
import type { Database } from '../../src/app/index.js';
import type { Post } from '../../src/store/index.js';

/** One post of one move, told by small numbers, so that the same can be done with other items. */
export interface Act {
  readonly kind: 'receive' | 'transfer' | 'use' | 'correct';
  readonly item: 0 | 1;
  readonly quantity: '1' | '2' | '3';
  readonly from: 0 | 1;
  readonly lot: 'A' | 'B' | null;
  readonly expiresOn: '2026-10-01' | '2027-01-01' | null;
  readonly unitCost: '2' | '3.5' | null;
  readonly serial: boolean;
  readonly countWasWrong: boolean;
  /** Under the id of the one before */
  readonly again: boolean;
}

export const ACT: fc.Arbitrary<Act> = fc.record({
  kind: fc.constantFrom('receive', 'receive', 'transfer', 'use', 'correct'),
  item: fc.constantFrom(0, 1),
  quantity: fc.constantFrom('1', '2', '3'),
  from: fc.constantFrom(0, 1),
  lot: fc.constantFrom('A', 'B', null),
  expiresOn: fc.constantFrom('2026-10-01', '2027-01-01', null),
  unitCost: fc.constantFrom('2', '3.5', null),
  serial: fc.boolean(),
  countWasWrong: fc.boolean(),
  again: fc.boolean(),
});

const plainAct = { item: 0, quantity: '1', from: 0, lot: null, expiresOn: null, unitCost: null, serial: false, countWasWrong: false, again: false } as const;

/** A serial number that goes to and fro; a line that ends and begins again; a lot that gets its expiry later; an id used again with the same content and with another. */
export const EXAMPLES: [Act[]][] = [
  [
    [
      { ...plainAct, kind: 'receive', serial: true },
      { ...plainAct, kind: 'transfer', serial: true },
      { ...plainAct, kind: 'receive', serial: true },
      { ...plainAct, kind: 'transfer', from: 1, serial: true },
    ],
  ],
  [
    [
      { ...plainAct, kind: 'receive', lot: 'A' },
      { ...plainAct, kind: 'receive', lot: 'B' },
      { ...plainAct, kind: 'use', lot: 'A' },
      { ...plainAct, kind: 'receive', lot: 'A', unitCost: '2' },
      { ...plainAct, kind: 'receive', lot: 'B', expiresOn: '2026-10-01', unitCost: '3.5' },
      { ...plainAct, kind: 'use', quantity: '2' },
      { ...plainAct, kind: 'use', quantity: '2', again: true },
      { ...plainAct, kind: 'use', quantity: '3', again: true },
    ],
  ],
];

export interface Items {
  readonly ids: readonly string[];
  readonly items: readonly string[];
  readonly parts: readonly string[];
  /** Written without the ids, which differ between items that are otherwise the same */
  plain(value: unknown): string;
}

/** Two items, the second kept in preservative, with a piece of each that has a serial number, and ids for posts. */
export async function newItems({ prisma }: Database): Promise<Items> {
  const [items, parts] = [
    [randomUUID(), randomUUID()],
    [randomUUID(), randomUUID()],
  ] as const;
  await prisma.item.createMany({ data: items.map((id) => ({ id, code: id, name: 'Item', kind: 'seal' })) });
  await prisma.itemKeeping.create({ data: { itemId: items[1] ?? '', preserveDays: 30 } });
  await prisma.part.createMany({ data: parts.map((id, at) => ({ id, itemId: items[at] ?? '', serialNumber: id })) });
  const ids = Array.from({ length: 14 }, () => randomUUID());
  const plain = (value: unknown) => [...items, ...parts, ...ids].reduce((text, id, at) => text.replaceAll(id, `#${at}`), JSON.stringify(value, null, 1));
  return { ids, items, parts, plain };
}

export function asPost(act: Act, { items, parts }: Items, places: readonly string[]): Omit<Post, 'id' | 'caller'> {
  const { kind, serial, countWasWrong } = act;
  const lot = serial ? null : act.lot;
  const [from = null, to = null] = [places[act.from], places[1 - act.from]];
  const outside = kind === 'receive' || (kind === 'correct' && act.item === 0);
  const move = {
    itemId: items[act.item] ?? '',
    lot,
    partId: serial ? (parts[act.item] ?? null) : null,
    quantity: serial ? '1' : act.quantity,
    fromPlaceId: outside ? null : from,
    toPlaceId: kind === 'use' || (kind === 'correct' && !outside) ? null : to,
    ...(outside ? { unitCost: act.unitCost, ...(lot === null ? {} : { expiresOn: act.expiresOn }) } : {}),
  };
  return { kind, at: new Date('2026-11-25T09:00:00Z'), note: '', moves: [move], countWasWrong };
}

export const answerOf = (answer: PromiseSettledResult<unknown>) =>
  answer.status === 'fulfilled' ? answer.value : { refused: String(answer.reason), errors: (answer.reason as { errors?: unknown }).errors };

/** What is stored of the items, each list in the order in which it came. */
export async function leftOf({ pool }: Database, { items }: Items): Promise<unknown> {
  const read = async (sql: string) => (await pool.query(sql, [items])).rows;
  return {
    lines: await read('SELECT place_id, item_id, lot, owner, part_id, on_hand FROM stock_balance WHERE item_id = ANY($1) ORDER BY id'),
    moves: await read(
      `SELECT post_id, item_id, lot, part_id, quantity, from_place_id, to_place_id, correction, from_serial, to_serial, unit_cost FROM stock_move WHERE item_id = ANY($1) ORDER BY id`,
    ),
    lots: await read(
      'SELECT item_id, code, received_on, expires_on, preserved_on, preserve_by FROM lot WHERE item_id = ANY($1) ORDER BY array_position($1::uuid[], item_id), code',
    ),
    costs: await read('SELECT item_id, average FROM item_cost WHERE item_id = ANY($1) ORDER BY array_position($1::uuid[], item_id)'),
    posts: await read(
      'SELECT id, kind, at, by, note, expired_reason FROM stock_post WHERE id IN (SELECT post_id FROM stock_move WHERE item_id = ANY($1)) ORDER BY (SELECT min(m.id) FROM stock_move m WHERE m.post_id = stock_post.id)',
    ),
  };
}
