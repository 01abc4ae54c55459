import type { TankPlan } from '../plan.js';

type Amounts = Partial<Pick<TankPlan, 'doseMgL' | 'litresPerCeb' | 'litresPerCip' | 'storageTemperatureC' | 'overFeed' | 'emptyInDays' | 'suppliedBy'>>;
type Built = Pick<TankPlan, 'shape' | 'diameterM' | 'lengthM' | 'widthM' | 'heightM' | 'capacityL' | 'heelL'>;

export const UPRIGHT: Built = { shape: 'vertical-cylinder', diameterM: 0.8, lengthM: null, widthM: null, heightM: 1.1, capacityL: 550, heelL: 25 };
export const LARGE_UPRIGHT: Built = { shape: 'vertical-cylinder', diameterM: 1.1, lengthM: null, widthM: null, heightM: 1.4, capacityL: 1330, heelL: 50 };
export const LYING: Built = { shape: 'horizontal-cylinder', diameterM: 0.9, lengthM: 1.6, widthM: null, heightM: 0.9, capacityL: 1015, heelL: 30 };
export const BOX: Built = { shape: 'rectangular', diameterM: null, lengthM: 0.8, widthM: 0.6, heightM: 0.9, capacityL: 430, heelL: 15 };
export const DRUM: Built = { shape: 'drum', diameterM: 0.57, lengthM: null, widthM: null, heightM: 0.85, capacityL: 216, heelL: 8 };

const tank =
  (name: string, chemical: TankPlan['chemical'], strengthGL: number) =>
  (skid: string, built: Built, amounts: Amounts): TankPlan => ({
    key: `${skid} ${chemical}`,
    name,
    chemical,
    strengthGL,
    storageTemperatureC: 18,
    doseMgL: null,
    litresPerCeb: null,
    litresPerCip: null,
    ...built,
    ...amounts,
  });

/** What fills a tank, as the store knows it. */
export const ITEM_OF_CHEMICAL: Readonly<Record<TankPlan['chemical'], string>> = {
  'sodium hypochlorite': 'DEMO-CH-1',
  'citric acid': 'DEMO-CH-2',
  'sodium hydroxide': 'DEMO-CH-3',
};

/** Strengths by the usual trade solutions: chlorine for hypochlorite, the pure substance for the others. */
export const hypochlorite = tank('Hypochlorite tank', 'sodium hypochlorite', 125);
export const citricAcid = tank('Citric acid tank', 'citric acid', 620);
export const caustic = tank('Caustic tank', 'sodium hydroxide', 762);
