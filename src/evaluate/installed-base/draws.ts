import { SeededRandom } from '../../visits/core/planner/seeded-random.js';

/** Random values of the usual shapes from one seed. */
export class Draws extends SeededRandom {
  /** Box and Muller's method */
  normal(): number {
    return Math.sqrt(-2 * Math.log(1 - this.next())) * Math.cos(2 * Math.PI * this.next());
  }

  logNormal(median: number, spread: number): number {
    return median * Math.exp(spread * this.normal());
  }
}
