/** What a piece that lies there costs a year, as a share of its value. Common practice. */
export const HELD_A_YEAR = 0.2;
/** What an order costs where nobody said so, in the reckoning currency. Common practice. */
export const COST_OF_ORDER = 20;
