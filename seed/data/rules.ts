import type { ScenarioRule } from '../types.js';

const GREASE_FEED_PUMP = 'Grease the bearings, check seal and alignment';
const NOTE = "Common practice; the maker's manual wins.";

const rule = (
  task: string,
  positionKind: ScenarioRule['positionKind'],
  limits: Partial<Pick<ScenarioRule, 'runHours' | 'starts' | 'cycles' | 'days' | 'base' | 'graceDays' | 'contains'>>,
  expectedMinutes: number,
  parts: Readonly<Record<string, number>> = {},
): ScenarioRule => ({
  task,
  positionKind,
  runHours: null,
  starts: null,
  cycles: null,
  days: null,
  base: 'floating',
  graceDays: 0,
  contains: [],
  ...limits,
  expectedMinutes,
  note: NOTE,
  parts: Object.entries(parts).map(([itemCode, quantity]) => ({ itemCode, quantity })),
});

/** Intervals by common practice, from one trade text or another; each maker's manual says its own. */
export const RULES: readonly ScenarioRule[] = [
  rule(GREASE_FEED_PUMP, 'feed pump', { runHours: 2000, days: 180 }, 45, { 'DEMO-LU-1': 0.1 }),
  rule('Open and inspect the pump', 'feed pump', { runHours: 16_000, days: 1095, contains: [GREASE_FEED_PUMP] }, 240, { 'DEMO-SE-1': 1 }),
  rule('Grease the bearings, check the seal', 'backwash pump', { runHours: 2000, days: 180 }, 40, { 'DEMO-LU-1': 0.1 }),
  rule('Grease the bearings, check seal and strainer', 'CIP pump', { runHours: 2000, days: 365 }, 40, { 'DEMO-LU-1': 0.1 }),
  rule('Change the oil, clean the intake filter', 'blower', { runHours: 1000, days: 180 }, 60, { 'DEMO-LU-2': 1.5, 'DEMO-WP-2': 1 }),
  rule('Change oil, oil filter and separator', 'compressor', { runHours: 2000, days: 365 }, 90, { 'DEMO-LU-2': 4, 'DEMO-WP-3': 1 }),
  rule('Check the contacts of the motor starter', 'compressor', { starts: 40_000, days: 730 }, 30),
  rule('Renew diaphragm and valves', 'dosing pump', { days: 365, graceDays: 28 }, 50, { 'DEMO-WP-1': 1 }),
  rule('Renew the seals of the actuator', 'actuator', { cycles: 150_000, days: 1095 }, 40, { 'DEMO-AC-2': 1 }),
  rule('Check that the valve closes tight', 'valve', { days: 365, graceDays: 28 }, 15),
  rule('Check zero and span', 'transmitter', { days: 365, base: 'fixed', graceDays: 28 }, 20),
  rule('Check housing, vent and O-rings', 'pre-filter', { days: 180, graceDays: 28 }, 30, { 'DEMO-SE-2': 1 }),
  rule('Measure the insulation of the winding', 'motor', { days: 365, graceDays: 28 }, 20),
  rule('Renew the mechanical seal', 'seal', { days: 1460 }, 150, { 'DEMO-SE-1': 1 }),
  rule('Clean the tank and its suction strainer', 'tank', { days: 365, graceDays: 28 }, 60),
  rule('Hold a pressure test of the fibres', 'other', { days: 90, base: 'fixed', graceDays: 14 }, 45),
];
