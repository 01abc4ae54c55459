import type { PathPoint } from '../outlook.js';

/** What the course of a value is drawn by, and what it was when new or clean. */
export interface CourseAhead {
  readonly limitKind: string;
  readonly path: readonly PathPoint[];
  readonly firstValue: number | null;
  /** Filtrate an hour and square metre while the skid filters, in litres; null: not known */
  readonly fluxLmh: number | null;
}

const KPA_PER_BAR = 100;

/**
 * Pressure above that of a new part or of clean membranes, so many days ahead, by the middle of a forecast's course: of cartridges the rise of their pressure drop; of membranes flux / permeability now less then.
 * Straight between the points of the course, the last of them beyond it. `null` where the course, the first value or the flux is not known.
 *
 * @example excessPressure({ limitKind: 'cartridge dP', path: [{ dayAhead: 0, low: 50, mid: 50, high: 50 }, { dayAhead: 10, low: 60, mid: 70, high: 80 }], firstValue: 30, fluxLmh: null })?.(5) // => 30
 */
export function excessPressure({ limitKind, path, firstValue, fluxLmh }: CourseAhead): ((dayAhead: number) => number) | null {
  if (path.length === 0 || firstValue === null || !(firstValue > 0)) return null;
  if (limitKind === 'permeability') {
    if (fluxLmh === null || !(fluxLmh > 0)) return null;
    const pressure = (lmhBar: number) => (KPA_PER_BAR * fluxLmh) / lmhBar;
    return (dayAhead) => Math.max(0, pressure(midAt(path, dayAhead)) - pressure(firstValue));
  }
  return (dayAhead) => Math.max(0, midAt(path, dayAhead) - firstValue);
}

function midAt(path: readonly PathPoint[], dayAhead: number): number {
  const next = path.findIndex((point) => point.dayAhead >= dayAhead);
  const [before, after] = [path[Math.max(0, next - 1)], path[next]];
  if (before === undefined || after === undefined) return path.at(-1)?.mid ?? 0;
  if (after.dayAhead === before.dayAhead) return after.mid;
  return before.mid + ((dayAhead - before.dayAhead) / (after.dayAhead - before.dayAhead)) * (after.mid - before.mid);
}
