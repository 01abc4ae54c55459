/** Probability of at most so many events where `mean` are expected (Poisson). Logarithms, so that many events do not underflow. */
function atMost(events: number, mean: number): number {
  let logTerm = -mean;
  let sum = Math.exp(logTerm);
  for (let count = 1; count <= events; count++) {
    logTerm += Math.log(mean / count);
    sum += Math.exp(logTerm);
  }
  return sum;
}

/**
 * The most events that were to be expected, with so much confidence, where so many were seen: one-sided upper limit of a Poisson mean, which is half the chi-squared
 * quantile with 2 (events + 1) degrees of freedom. Divided by the time watched it is the highest rate; the time divided by it is the lowest mean time between events,
 * for a watch that was ended by the clock.
 *
 * Solves P(at most `events`) = 1 - confidence by halving, to 1e-12 of itself. No event: -ln(1 - confidence).
 *
 * Source: exact Poisson limits (Garwood, from memory). Check values: chi-squared quantiles, computed independently.
 *
 * @example mostEvents(0, 0.95) // => 2.995732273553991
 * @example mostEvents(12, 0.9) // => 17.78158
 */
export function mostEvents(events: number, confidence: number): number {
  let low = events;
  let high = events + 20 + 8 * Math.sqrt(events + 1);
  while (high - low > 1e-12 * high) {
    const middle = (low + high) / 2;
    if (middle === low || middle === high) break;
    if (atMost(events, middle) > 1 - confidence) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}
