import { DEFAULT_UNITS, type UnitChoice } from '../shared/unit-choice.js';
import type { ReportUnitsQuery } from './reports.dto.js';

export interface ReportFile {
  readonly name: string;
  readonly pdf: Buffer;
}

/** What was chosen, and for the rest what the pages begin with. */
export const unitsOf = ({ pressure, flow, temperature, permeability }: ReportUnitsQuery): UnitChoice => ({
  pressure: pressure ?? DEFAULT_UNITS.pressure,
  flow: flow ?? DEFAULT_UNITS.flow,
  temperature: temperature ?? DEFAULT_UNITS.temperature,
  permeability: permeability ?? DEFAULT_UNITS.permeability,
});
