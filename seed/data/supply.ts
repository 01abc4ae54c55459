/** Who sells what to the demo's company: invented suppliers, prices and deliveries. */
export interface DemoSupplier {
  readonly key: string;
  readonly name: string;
  readonly currency: string;
  readonly email: string;
  readonly contacts: string;
  readonly leadDays: number;
  readonly minimumOrder: string | null;
  readonly orderWeekday: number | null;
}

export const SUPPLIERS: readonly DemoSupplier[] = [
  {
    key: 'millrace',
    name: 'Millrace Sealing (demo)',
    currency: 'EUR',
    email: 'orders@millrace.example',
    contacts: 'Ines Harrowby, orders',
    leadDays: 7,
    minimumOrder: '150',
    orderWeekday: 2,
  },
  {
    key: 'quarrel',
    name: 'Quarrel Hill Filtration (demo)',
    currency: 'GBP',
    email: 'sales@quarrelhill.example',
    contacts: 'Obi Fenwright, cartridges and modules',
    leadDays: 28,
    minimumOrder: null,
    orderWeekday: null,
  },
  {
    key: 'saltern',
    name: 'Saltern Chemicals (demo)',
    currency: 'EUR',
    email: 'dispatch@saltern.example',
    contacts: 'Dispatch, weekdays until 15:00',
    leadDays: 4,
    minimumOrder: '300',
    orderWeekday: null,
  },
];

export const GBP_RATE = '1.17';

/** By item: supplier, unit of purchase, units of use in it, price, pack */
export const OFFERS: readonly (readonly [item: string, supplier: string, unit: string, factor: number, price: string, pack: number])[] = [
  ['DEMO-CA-05', 'quarrel', 'XCT', 20, '188', 1],
  ['DEMO-CA-20', 'quarrel', 'XCT', 20, '172', 1],
  ['DEMO-MO-80', 'quarrel', 'C62', 1, '1490', 1],
  ['DEMO-MO-60', 'quarrel', 'C62', 1, '1240', 1],
  ['DEMO-PU-2', 'millrace', 'C62', 1, '410', 1],
  ['DEMO-SE-1', 'millrace', 'C62', 1, '96.5', 1],
  ['DEMO-SE-2', 'millrace', 'SET', 1, '14.2', 5],
  ['DEMO-SE-3', 'millrace', 'SET', 1, '31', 1],
  ['DEMO-WP-1', 'millrace', 'SET', 1, '58', 1],
  ['DEMO-WP-3', 'millrace', 'SET', 1, '74', 1],
  ['DEMO-AC-2', 'millrace', 'SET', 1, '22.8', 1],
  ['DEMO-LU-2', 'millrace', 'XBJ', 20, '118', 1],
  ['DEMO-CH-1', 'saltern', 'XIH', 60, '78', 1],
  ['DEMO-CH-2', 'saltern', 'X3H', 25, '49', 1],
  ['DEMO-CH-3', 'saltern', 'X3H', 25, '38', 1],
];

/** By item: what depends on it, how many days it keeps, per cent of the active substance by mass */
export const ITEM_SUPPLY: readonly (readonly [item: string, criticality: string, shelfLifeDays: number | null, strengthPercent: string | null])[] = [
  ['DEMO-MO-80', 'hampers the skid', 365, null],
  ['DEMO-MO-60', 'hampers the skid', 365, null],
  ['DEMO-CA-05', 'stops the skid', null, null],
  ['DEMO-CA-20', 'stops the skid', null, null],
  ['DEMO-SE-1', 'stops the skid', null, null],
  ['DEMO-CH-1', 'stops the skid', 42, '10.7'],
  ['DEMO-CH-2', 'hampers the skid', 365, '50'],
  ['DEMO-CH-3', 'hampers the skid', null, '50'],
];

/** Numbers of the range that companies give out for use within themselves. */
export const BAR_CODES: readonly (readonly [code: string, item: string, quantity: string])[] = [
  ['02000000000152', 'DEMO-CA-05', '20'],
  ['02000000000169', 'DEMO-SE-1', '1'],
  ['02000000000176', 'DEMO-CH-1', '60'],
];

/** Orders that came before the opening stock was counted: supplier, item, quantity, sent so many days ago, and came so many days later. */
export const PAST_ORDERS: readonly (readonly [supplier: string, item: string, quantity: number, sentDaysAgo: number, cameAfter: number])[] = [
  ['millrace', 'DEMO-SE-1', 4, 410, 8],
  ['millrace', 'DEMO-WP-1', 6, 352, 9],
  ['millrace', 'DEMO-SE-2', 10, 301, 7],
  ['millrace', 'DEMO-LU-2', 1, 244, 12],
  ['millrace', 'DEMO-SE-3', 6, 188, 10],
  ['quarrel', 'DEMO-CA-20', 4, 395, 33],
  ['quarrel', 'DEMO-CA-05', 2, 320, 41],
  ['quarrel', 'DEMO-MO-80', 2, 266, 36],
  ['quarrel', 'DEMO-CA-20', 3, 205, 30],
  ['saltern', 'DEMO-CH-1', 4, 260, 4],
  ['saltern', 'DEMO-CH-1', 4, 221, 3],
  ['saltern', 'DEMO-CH-3', 6, 180, 6],
];

/** Sent and not come yet; the first is late. */
export const OPEN_ORDERS: readonly (readonly [supplier: string, item: string, quantity: number, sentDaysAgo: number, neededInDays: number])[] = [
  ['millrace', 'DEMO-WP-3', 4, 13, 6],
  ['quarrel', 'DEMO-CA-05', 2, 9, 40],
];

/** Items that people said something of: by item and place, what must always lie there, how often it is looked at, and which share of jobs is to find it. */
export const STOCK_SETTINGS: readonly (readonly [
  item: string,
  place: string,
  minimum: string | null,
  reviewDays: number | null,
  jobs: number | null,
  note: string,
])[] = [
  ['DEMO-SE-1', 'Main store', '2', null, 0.98, 'A pump without its seal stands still'],
  ['DEMO-SE-2', 'Van of Jonah Pikkala', '4', null, null, 'On board at all times'],
  ['DEMO-SE-2', 'Van of Marit Dunnoway', '4', null, null, 'On board at all times'],
  ['DEMO-WP-1', 'Van of Jonah Pikkala', '4', null, null, ''],
  ['DEMO-CA-20', 'Main store', null, 7, null, 'Looked at on Tuesdays'],
  ['DEMO-CA-05', 'Main store', null, 7, null, 'Looked at on Tuesdays'],
];
