import { Injectable } from '@nestjs/common';
import { type Caller, viewOf } from '../app/index.js';
import { SIGNALS, type SignalCode } from '../shared/signals.js';
import { fromStored, UNITS } from '../shared/units.js';
import { expectedGauges, type Gauge } from './core/gauges.js';
import { HandSheetView, SheetGaugeView, SheetMeterView, SheetTankView } from './hand.dto.js';
import { HandSheetRepository, type LastValue } from './repositories/hand-sheet.repository.js';
import { SkidsRepository } from './repositories/skids.repository.js';
import { SkidAccess } from './skid-access.js';

/** Common practice, all of them. */
const CAUTIONS = [
  'Read in filtration: at least three minutes after a backwash, and not during a clean.',
  'Read all gauges within a few minutes, and write the time at which you began.',
];
const CAUTION_OF: Partial<Record<SignalCode, string>> = {
  temperature: 'After five minutes of flow: standing water takes on the warmth of the room.',
  filtrate_total: 'All digits, as they stand.',
  backwash_count: 'All digits, as they stand.',
};

/** Lists what the gauges of a skid show, for the form on a phone and for the sheet on a clipboard. */
@Injectable()
export class HandSheet {
  constructor(
    private readonly access: SkidAccess,
    private readonly skids: SkidsRepository,
    private readonly sheets: HandSheetRepository,
  ) {}

  async of(caller: Caller, skidId: string): Promise<HandSheetView> {
    const skid = await this.access.toRead(caller, skidId);
    const machines = await this.skids.machinesOf(skidId);
    const values = await this.sheets.lastValues(caller, skidId);
    const readings = await this.sheets.lastMeterReadings(caller, skidId);
    const dips = await this.sheets.lastDips(caller, skidId);
    const listed = (await this.sheets.listedGauges(skidId)) as { readonly columns: readonly Gauge[] } | null;
    const gauges = listed?.columns ?? asReadLast(expectedGauges(skid.tmp, machines), values);
    return viewOf(HandSheetView, {
      skidId,
      skidName: skid.name,
      siteName: skid.siteName,
      timeZone: skid.timeZone,
      asksMinutesSinceBackwash: true,
      gauges: gauges.map((gauge) => toGaugeView(gauge, values)),
      meters: machines.meters
        .filter(({ ended }) => !ended)
        .map(({ id, kind, positionName }) => {
          const last = readings.find(({ meterId }) => meterId === id);
          return viewOf(SheetMeterView, { meterId: id, label: `${positionName}: ${kind}`, kind, lastValue: last?.value ?? null, lastAt: last?.at ?? null });
        }),
      tanks: machines.tanks
        .filter(({ ended }) => !ended)
        .map(({ id, name, chemical, heightM }) => {
          const last = dips.find(({ tankId }) => tankId === id);
          const { levelM: lastLevelM = null, strengthGL: lastStrengthGL = null, at: lastAt = null } = last ?? {};
          return viewOf(SheetTankView, { tankId: id, label: name, chemical, heightM, lastLevelM, lastStrengthGL, lastAt });
        }),
      cautions: CAUTIONS,
    });
  }
}

/** Where nobody has listed the gauges, those that were read before are there for certain, and in the unit in which they were read. */
function asReadLast(expected: readonly Gauge[], values: readonly LastValue[]): Gauge[] {
  if (values.length === 0) return [...expected];
  return values.map(({ signal, enteredUnit, readingError }) => {
    const smallestDivision = readingError === null ? null : Number(((2 * readingError) / UNITS[enteredUnit].factor).toPrecision(6));
    return { signal, unit: enteredUnit, smallestDivision };
  });
}

function toGaugeView({ signal, unit, smallestDivision }: Gauge, values: readonly LastValue[]): SheetGaugeView {
  const last = values.find((value) => value.signal === signal);
  return viewOf(SheetGaugeView, {
    signal,
    label: SIGNALS[signal].label,
    unit,
    unitLabel: UNITS[unit].label,
    smallestDivision: smallestDivision ?? null,
    lastValue: last === undefined ? null : Number(fromStored(last.value, unit).toPrecision(9)),
    lastAt: last?.at ?? null,
    caution: CAUTION_OF[signal] ?? null,
  });
}
