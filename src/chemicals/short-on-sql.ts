/** The day from which a tank may run short, as SQL over a row `c` of tank_cover: the early end of its range, while `run_out_on` is the likely day. */
export const TANK_SHORT_ON_SQL = 'c.run_out_on - ceil(c.likely_days - c.early_days)::int';
