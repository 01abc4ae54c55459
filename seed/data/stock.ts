import type { ScenarioPlace, ScenarioStockPost } from '../work-types.js';

export const PLACES: readonly ScenarioPlace[] = [
  { key: 'store', name: 'Main store', kind: 'store', personKey: null, siteKey: null, note: 'Demo data: invented store.' },
  { key: 'van-jonah', name: 'Van of Jonah Pikkala', kind: 'van', personKey: 'jonah.pikkala', siteKey: null, note: '' },
  { key: 'van-marit', name: 'Van of Marit Dunnoway', kind: 'van', personKey: 'marit.dunnoway', siteKey: null, note: '' },
  {
    key: 'cupboard',
    name: 'Spares cupboard, Fernhollow Waterworks',
    kind: 'site',
    personKey: null,
    siteKey: 'fernhollow-works',
    note: 'Key at the control room',
  },
];

interface Lines {
  readonly kind: ScenarioStockPost['kind'];
  readonly daysAgo: number;
  readonly by: string;
  readonly note: string;
  readonly fromKey: string | null;
  readonly toKey: string;
  /** By item code: how many, and of which lot */
  readonly lines: Readonly<Record<string, readonly [quantity: number, lot?: string]>>;
}

const [STOREKEEPER, LOT_5, LOT_20] = ['tomas.reedway', 'DEMO-L5-07', 'DEMO-L20-11'];

/**
 * What came into the store, and where it went. Oil filters for compressors and seal kits for actuators have run out on purpose, so that some of the coming
 * work is short of something.
 */
export const STOCK: readonly Lines[] = [
  {
    kind: 'receive',
    daysAgo: 140,
    by: STOREKEEPER,
    note: 'Opening stock, counted',
    fromKey: null,
    toKey: 'store',
    lines: {
      'DEMO-CA-05': [40, LOT_5],
      'DEMO-CA-20': [72, LOT_20],
      'DEMO-MO-80': [2],
      'DEMO-PU-2': [2],
      'DEMO-SE-1': [6],
      'DEMO-SE-2': [20],
      'DEMO-SE-3': [6],
      'DEMO-WP-1': [10],
      'DEMO-WP-2': [6],
      'DEMO-AC-1': [2],
      'DEMO-CL-1': [60],
      'DEMO-LU-1': [12],
      'DEMO-LU-2': [20],
    },
  },
  {
    kind: 'transfer',
    daysAgo: 61,
    by: STOREKEEPER,
    note: 'Vans filled up',
    fromKey: 'store',
    toKey: 'van-jonah',
    lines: { 'DEMO-SE-1': [2], 'DEMO-SE-2': [4], 'DEMO-WP-1': [3], 'DEMO-CL-1': [15], 'DEMO-LU-1': [2], 'DEMO-LU-2': [5], 'DEMO-CA-20': [14, LOT_20] },
  },
  {
    kind: 'transfer',
    daysAgo: 60,
    by: STOREKEEPER,
    note: 'Vans filled up',
    fromKey: 'store',
    toKey: 'van-marit',
    lines: { 'DEMO-SE-1': [1], 'DEMO-SE-2': [4], 'DEMO-WP-1': [2], 'DEMO-CL-1': [12], 'DEMO-LU-1': [1.5], 'DEMO-WP-2': [2] },
  },
  {
    kind: 'transfer',
    daysAgo: 33,
    by: 'jonah.pikkala',
    note: 'Left at the works for the next change',
    fromKey: 'van-jonah',
    toKey: 'cupboard',
    lines: { 'DEMO-CA-20': [12, LOT_20], 'DEMO-SE-2': [1] },
  },
  {
    kind: 'receive',
    daysAgo: 19,
    by: STOREKEEPER,
    note: 'Delivery of cartridges',
    fromKey: null,
    toKey: 'store',
    lines: { 'DEMO-CA-05': [20, 'DEMO-L5-08'] },
  },
];
