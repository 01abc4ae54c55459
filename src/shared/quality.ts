/** Bits of a quality flag; 0 is a good value. A doubtful value is kept, and left out of condition with its reason counted. */
export const QUALITY = {
  good: 0,
  doubtfulTime: 1,
  outOfRange: 2,
  stuck: 4,
  notSettled: 8,
  replaced: 16,
} as const;
