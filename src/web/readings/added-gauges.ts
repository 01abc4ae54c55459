import { isSignalCode, SIGNALS, type SignalCode } from '../../shared/signals.js';
import type { UnitCode } from '../../shared/units.js';
import { type UnitChoice, unitLabel } from '../units-choice.js';
import { gaugeField, type Sheet } from './hand-fields.js';

type Gauge = Sheet['gauges'][number];

/** Signals of the skid as a whole that the sheet does not ask for. */
export function missingGauges({ gauges }: Sheet): SignalCode[] {
  return (Object.keys(SIGNALS) as SignalCode[]).filter((code) => !('ofPosition' in SIGNALS[code]) && gauges.every(({ signal }) => signal !== code));
}

/** The sheet with the gauges that the reader added: those with an entry. A sheet knows only what was read before. */
export function withAdded(sheet: Sheet, entries: Readonly<Record<string, string>>, units: UnitChoice): Sheet {
  const prefix = gaugeField('');
  const added = Object.keys(entries).flatMap((field): Gauge[] => {
    const code = field.slice(prefix.length);
    return field.startsWith(prefix) && isSignalCode(code) && missingGauges(sheet).includes(code) ? [newGauge(code, units)] : [];
  });
  return { ...sheet, gauges: [...sheet.gauges, ...added] };
}

function newGauge(signal: SignalCode, units: UnitChoice): Gauge {
  const { label, dimension, unit: stored } = SIGNALS[signal];
  const unit = (units as Partial<Record<string, UnitCode>>)[dimension] ?? stored;
  return { signal, label, unit, unitLabel: unitLabel(unit), smallestDivision: null, lastValue: null, lastAt: null, caution: null };
}
