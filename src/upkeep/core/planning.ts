/** Work whose day lies within this many days is planned now: common practice, two weeks. */
export const PLANNING_DAYS = 14;

/** Beyond the planning horizon and within this many days a need is watched; later, nothing is to be done. Common practice, two months. */
export const WATCH_DAYS = 60;
