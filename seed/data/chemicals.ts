/** Who draws from tanks besides what their skid doses and cleans with. */
export const TANK_USERS = [
  { tankKey: 'vaal-1 sodium hypochlorite', name: 'Disinfection of the screen wash, by hand', litresPerDay: 0.3, sdPerDay: 0.4 },
] as const;

/** Tanks whose strength was measured at the last dips, and what the sample held of what was to be expected. */
export const ASSAYS = [
  { tankKey: 'fern-1 sodium hypochlorite', samples: [0.99, 0.98, 1] },
  { tankKey: 'merla-1 sodium hypochlorite', samples: [0.97, 0.96] },
  { tankKey: 'brenn-1 sodium hypochlorite', samples: [0.98] },
] as const;

/** What clients said is on its way to tanks that they fill. */
export const ANNOUNCED = [{ tankKey: 'merla-1 citric acid', volumeL: 120, inDays: 9, note: 'With the lorry of the works.' }] as const;
