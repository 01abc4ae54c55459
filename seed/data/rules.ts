import { LIBRARY_RULES, LIBRARY_SHEETS } from '../../src/upkeep/library/library.js';
import type { ScenarioRule } from '../types.js';

/** What the demo company takes with it for a task, in the unit of each item; cloths once a visit. */
const PARTS: Readonly<Record<string, Readonly<Record<string, number>>>> = {
  'Grease the bearings, check seal and alignment': { 'DEMO-LU-1': 0.1, 'DEMO-CL-1': 1 },
  'Check alignment, coupling and shaft sleeve': { 'DEMO-LU-1': 0.1, 'DEMO-CL-1': 1 },
  'Open and inspect the pump': { 'DEMO-SE-1': 1, 'DEMO-CL-1': 1 },
  'Grease the bearings, check the seal': { 'DEMO-LU-1': 0.1, 'DEMO-CL-1': 1 },
  'Grease the bearings, check seal and strainer': { 'DEMO-LU-1': 0.1, 'DEMO-CL-1': 1 },
  'Renew the mechanical seal': { 'DEMO-SE-1': 1 },
  'Renew diaphragm and valves': { 'DEMO-WP-1': 1 },
  'Change the oil, clean the intake filter': { 'DEMO-LU-2': 1.5, 'DEMO-WP-2': 1, 'DEMO-CL-1': 1 },
  'Change oil, oil filter and separator': { 'DEMO-LU-2': 4, 'DEMO-WP-3': 1, 'DEMO-CL-1': 1 },
  'Renew the seals of the actuator': { 'DEMO-AC-2': 1 },
  'Check housing, vent and O-rings': { 'DEMO-SE-2': 1 },
  'Change the cartridges': { 'DEMO-SE-2': 1 },
};
export const EVERY_VISIT: ReadonlySet<string> = new Set(['DEMO-CL-1']);

const minutesOf = new Map(LIBRARY_SHEETS.map(({ task, usualMinutes }) => [task, usualMinutes]));

/** The starting library, with the demo company's own parts. */
export const RULES: readonly ScenarioRule[] = LIBRARY_RULES.map((rule) => ({
  ...rule,
  expectedMinutes: minutesOf.get(rule.task) ?? 30,
  parts: Object.entries(PARTS[rule.task] ?? {}).map(([itemCode, quantity]) => ({ itemCode, quantity })),
}));
