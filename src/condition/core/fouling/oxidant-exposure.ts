/**
 * Whether a chemical, as it is named on record, brings free chlorine to the membrane.
 *
 * Source: own; names as the trade uses them.
 *
 * @example isOxidant('sodium hypochlorite') // => true
 * @example isOxidant('citric acid') // => false
 */
export function isOxidant(chemical: string): boolean {
  return /hypochlor|chlorine/i.test(chemical);
}

/** A clean with an oxidant: free chlorine in contact with the membrane. */
export interface OxidantContact {
  readonly mgL: number | null;
  readonly minutes: number | null;
}

/** Contact of a membrane with free chlorine so far. */
export interface OxidantExposure {
  /** Sum of concentration times time, ppm h */
  readonly ppmH: number;
  readonly contacts: number;
  /** Contacts of which strength or time is not on record: the sum is too small by them */
  readonly unknown: number;
}

/**
 * Sums up concentration times contact time, mg/L h (which is ppm h in water). The strength of each contact counts as constant, so that what decays meanwhile counts too much. A sum is a rough
 * measure: concentration, pH and temperature age a membrane as well, and the maker says which sum it stands.
 *
 * Source: common practice.
 *
 * @example oxidantExposure([{ mgL: 200, minutes: 15 }, { mgL: 2000, minutes: 240 }, { mgL: null, minutes: 15 }]) // => { "ppmH": 8050, "contacts": 3, "unknown": 1 }
 */
export function oxidantExposure(contacts: readonly OxidantContact[]): OxidantExposure {
  const known = contacts.flatMap(({ mgL, minutes }) => (mgL === null || minutes === null ? [] : [(mgL * minutes) / 60]));
  return { ppmH: known.reduce((total, part) => total + part, 0), contacts: contacts.length, unknown: contacts.length - known.length };
}
