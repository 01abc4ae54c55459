/** Days ahead at which every outlook says how likely its limit is met by then. Fixed, so that outlooks of all ages and parts compare. */
export const DAYS_AHEAD = [1, 2, 3, 5, 7, 10, 14, 21, 30, 45, 60, 90, 120, 180, 270, 365, 540, 730] as const;

/** The last of them: what lies later is only said to be later. */
export const HORIZON_DAYS = 730;
