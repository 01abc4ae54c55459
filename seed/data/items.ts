import type { ScenarioItem } from '../types.js';

const piece = (code: string, kind: ScenarioItem['kind'], name: string): ScenarioItem => ({ code, name, kind, unit: 'C62' });

/** Generic parts under codes of the demo's own. */
export const ITEMS: readonly ScenarioItem[] = [
  piece('DEMO-CA-05', 'cartridge', 'Depth cartridge 40 inch, 5 µm'),
  piece('DEMO-CA-20', 'cartridge', 'Depth cartridge 40 inch, 20 µm'),
  piece('DEMO-MO-80', 'module', 'Hollow-fibre module 80 m², pressurised'),
  piece('DEMO-MO-60', 'module', 'Hollow-fibre module 60 m², pressurised'),
  piece('DEMO-MO-100', 'module', 'Hollow-fibre module 100 m², submerged'),
  piece('DEMO-PU-1', 'pump', 'Centrifugal pump, stainless steel'),
  piece('DEMO-PU-2', 'pump', 'Diaphragm dosing pump, 10 L/h'),
  piece('DEMO-SE-1', 'seal', 'Mechanical seal, 35 mm, silicon carbide'),
  piece('DEMO-SE-2', 'seal', 'O-ring set for the cartridge housing'),
  piece('DEMO-SE-3', 'seal', 'Seat and stem seals for a butterfly valve, DN 80'),
  piece('DEMO-WP-1', 'wear part', 'Diaphragm and valves for a dosing pump'),
  piece('DEMO-WP-2', 'wear part', 'Intake filter for a blower or compressor'),
  piece('DEMO-WP-3', 'wear part', 'Oil filter and separator for a compressor'),
  piece('DEMO-AC-1', 'actuator', 'Pneumatic quarter-turn actuator with limit switches'),
  piece('DEMO-AC-2', 'actuator', 'Seal kit for a pneumatic actuator'),
  piece('DEMO-CL-1', 'consumable', 'Wiping cloths, pack'),
  { code: 'DEMO-LU-1', name: 'Bearing grease, lithium complex', kind: 'lubricant', unit: 'LTR' },
  { code: 'DEMO-LU-2', name: 'Compressor and blower oil', kind: 'lubricant', unit: 'LTR' },
  { code: 'DEMO-CH-1', name: 'Sodium hypochlorite, 125 g/L chlorine', kind: 'chemical', unit: 'LTR' },
  { code: 'DEMO-CH-2', name: 'Citric acid, 50 % solution', kind: 'chemical', unit: 'LTR' },
  { code: 'DEMO-CH-3', name: 'Sodium hydroxide, 50 % solution', kind: 'chemical', unit: 'LTR' },
];
