/** Nine equally likely values of a standard normal, the middles of its ninths: to average over what is not known without drawing at random. */
export const NINTHS: readonly number[] = [-1.5932188, -0.9674216, -0.5894558, -0.2822161, 0, 0.2822161, 0.5894558, 0.9674216, 1.5932188];

/** Days of a week are alike (weather, shifts), so that only every seventh counts as news. Common practice. */
export const DAYS_ALIKE = 7;
