import type { SharedPlan } from '../plan.js';
import { BOX, caustic, citricAcid, DRUM, hypochlorite, UPRIGHT } from './tanks.js';

export const SHARED: readonly SharedPlan[] = [
  {
    key: 'fern-cip',
    siteKey: 'fernhollow-works',
    servesKeys: ['fern-1', 'fern-2'],
    name: 'Fernhollow CIP unit',
    machine: 'CIP pump',
    commissionedDaysAgo: 2190,
    tanks: [
      hypochlorite('fern-cip', BOX, { litresPerCip: 20 }),
      citricAcid('fern-cip', UPRIGHT, { litresPerCip: 45 }),
      caustic('fern-cip', DRUM, { litresPerCip: 16 }),
    ],
  },
  {
    key: 'vaal-air',
    siteKey: 'vaalholt-plant',
    servesKeys: ['vaal-1', 'vaal-2'],
    name: 'Vaalholt compressor',
    machine: 'compressor',
    commissionedDaysAgo: 1510,
    tanks: [],
  },
];
