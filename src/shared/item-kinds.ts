/** What an item of the catalogue is. */
export const ITEM_KINDS = [
  'module',
  'cartridge',
  'seal',
  'bearing',
  'pump',
  'motor',
  'blower',
  'valve',
  'actuator',
  'instrument',
  'wear part',
  'lubricant',
  'chemical',
  'consumable',
  'other',
] as const;
export type ItemKind = (typeof ITEM_KINDS)[number];
