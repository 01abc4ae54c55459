import type { ScenarioSite } from '../types.js';

/** In EUR, invented; of a usual size for small plants. */
interface SitePrices {
  readonly unplanned: number;
  readonly recoveryClean: number;
  readonly energyKwh: number;
  readonly waterM3: number;
  readonly lostShare: number;
}

const USUAL: SitePrices = { unplanned: 900, recoveryClean: 650, energyKwh: 0.18, waterM3: 0.6, lostShare: 0.3 };

/** Where they differ: far sites cost more to come to, and where production waits for water, more of it is lost. */
const OF_SITE: Readonly<Record<string, Partial<SitePrices>>> = {
  'nether-wick': { unplanned: 1100 },
  'brennholm-dairy': { waterM3: 1.9, lostShare: 0.8, energyKwh: 0.24 },
  'tamarrow-creamery': { unplanned: 2600, waterM3: 1.7, lostShare: 0.8, energyKwh: 0.13 },
  'hintertann-mill': { waterM3: 1.1, lostShare: 0.5, recoveryClean: 820 },
  'obersill-works': { unplanned: 1250 },
  'merla-intake': { unplanned: 3100, recoveryClean: 980, energyKwh: 0.21, waterM3: 1.4 },
};

export const pricesOf = ({ key }: ScenarioSite): SitePrices => ({ ...USUAL, ...OF_SITE[key] });
