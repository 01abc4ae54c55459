import { HOUR_MS, hoursOf, type Period } from './period.js';

/** A clock that runs with the work that a part does: what it shows at a moment, and the moment at which it shows a load. */
export interface LoadClock {
  at(ms: number): number;
  when(load: number): number;
}

/** Loads of the hours of a period, added up. Before the period and after it the clock runs on at the mean pace of the period. */
export function loadClock(period: Period, loadOfHour: (ms: number, hour: number) => number): LoadClock {
  const hours = hoursOf(period);
  const sums = new Float64Array(hours + 1);
  for (let hour = 0; hour < hours; hour += 1) sums[hour + 1] = (sums[hour] ?? 0) + loadOfHour(period.fromMs + hour * HOUR_MS, hour);
  const total = sums[hours] ?? 0;
  const pace = total / hours;
  const sumAt = (hour: number) => sums[hour] ?? total;
  return {
    at(ms) {
      const place = (ms - period.fromMs) / HOUR_MS;
      if (place <= 0 || place >= hours) return (place <= 0 ? 0 : total) + pace * (place <= 0 ? place : place - hours);
      const hour = Math.floor(place);
      return sumAt(hour) + (sumAt(hour + 1) - sumAt(hour)) * (place - hour);
    },
    when(load) {
      if (load <= 0) return period.fromMs + (load / pace) * HOUR_MS;
      if (load >= total) return period.fromMs + (hours + (load - total) / pace) * HOUR_MS;
      let [low, high] = [0, hours];
      while (high - low > 1) {
        const middle = (low + high) >> 1;
        if (sumAt(middle) < load) low = middle;
        else high = middle;
      }
      return period.fromMs + (low + (load - sumAt(low)) / (sumAt(high) - sumAt(low))) * HOUR_MS;
    },
  };
}
