import type { Schemas } from '../api/client.js';
import { words } from '../words.js';

export type Sheet = Schemas['HandSheetView'];
type Reading = Schemas['HandReadingDto'];
type Entries = Readonly<Record<string, string>>;

/** A number as people write it on either side of the sea; undefined when it is none. */
export function readDecimal(text: string): number | undefined {
  const plain = text.trim().replace(',', '.').replace('−', '-');
  return /^-?\d+(\.\d+)?$/.test(plain) ? Number(plain) : undefined;
}

/** What the last digit that was written stands for: 0.01 for "0.80". */
export function divisionOf(text: string): number {
  const decimals = /[.,](\d+)\s*$/.exec(text)?.[1]?.length ?? 0;
  return 10 ** -decimals;
}

export const gaugeField = (signal: string) => `gauge ${signal}`;
export const meterField = (meterId: string) => `meter ${meterId}`;
export const levelField = (tankId: string) => `level ${tankId}`;
export const strengthField = (tankId: string) => `strength ${tankId}`;

/** Every field of the form with its label, in the order of the sheet; all but time, name and note are numbers. */
export function numberFields(sheet: Sheet): { field: string; label: string }[] {
  return [
    ...(sheet.asksMinutesSinceBackwash ? [{ field: 'minutesSinceBackwash', label: words.readings.sinceBackwash }] : []),
    ...sheet.gauges.map(({ signal, label }) => ({ field: gaugeField(signal), label })),
    ...sheet.meters.map(({ meterId, label }) => ({ field: meterField(meterId), label })),
    ...sheet.tanks.flatMap(({ tankId, label }) => [
      { field: levelField(tankId), label: words.readings.level(label) },
      { field: strengthField(tankId), label: words.readings.strength(label) },
    ]),
  ];
}

export function startEntries(sheet: Sheet, now: string, name: string): Record<string, string> {
  return { at: now, readBy: name, note: '', ...Object.fromEntries(numberFields(sheet).map(({ field }) => [field, ''])) };
}

/** What needs a change before the reading can be sent. */
export function checkEntries(sheet: Sheet, entries: Entries): Record<string, string> {
  const problems: Record<string, string> = {};
  if (!entries.at) problems.at = words.readings.needTime;
  const fields = numberFields(sheet);
  for (const { field, label } of fields) {
    const text = entries[field] ?? '';
    if (text.trim() !== '' && readDecimal(text) === undefined) problems[field] = words.readings.needNumber(label);
  }
  const first = fields.find(({ field }) => field !== 'minutesSinceBackwash');
  if (first !== undefined && fields.every(({ field }) => field === 'minutesSinceBackwash' || !entries[field]?.trim())) {
    problems[first.field] = words.readings.needOne;
  }
  return problems;
}

/** The reading as it is sent, with the field that each part of it came from, so that a refusal finds its way back. */
export function toReading(sheet: Sheet, entries: Entries): { reading: Reading; fieldAt: (pointer: string) => string } {
  const of = (field: string) => readDecimal(entries[field] ?? '');
  const gauges = sheet.gauges.filter(({ signal }) => of(gaugeField(signal)) !== undefined);
  const meters = sheet.meters.filter(({ meterId }) => of(meterField(meterId)) !== undefined);
  const tanks = sheet.tanks.filter(({ tankId }) => of(levelField(tankId)) !== undefined || of(strengthField(tankId)) !== undefined);
  const minutes = of('minutesSinceBackwash');
  const reading: Reading = {
    at: entries.at ?? '',
    ...(minutes === undefined ? {} : { minutesSinceBackwash: minutes }),
    values: gauges.map(({ signal, unit, smallestDivision }) => ({
      signal,
      unit,
      value: of(gaugeField(signal)) ?? 0,
      smallestDivision: smallestDivision ?? divisionOf(entries[gaugeField(signal)] ?? ''),
    })),
    meters: meters.map(({ meterId }) => ({ meterId, value: of(meterField(meterId)) ?? 0 })),
    tanks: tanks.map(({ tankId }) => {
      const [levelCm, strengthGL] = [of(levelField(tankId)), of(strengthField(tankId))];
      return { tankId, ...(levelCm === undefined ? {} : { levelCm }), ...(strengthGL === undefined ? {} : { strengthGL }) };
    }),
    ...(entries.note ? { note: entries.note } : {}),
    ...(entries.readBy ? { readBy: entries.readBy } : {}),
  };
  const fieldAt = (pointer: string) => {
    const [, list, place, part] = /\/readings\/0\/(\w+)(?:\/(\d+))?(?:\/(\w+))?/.exec(pointer) ?? [];
    const at = Number(place);
    if (list === 'values') return gaugeField(gauges[at]?.signal ?? '');
    if (list === 'meters') return meterField(meters[at]?.meterId ?? '');
    if (list === 'tanks') return (part === 'strengthGL' ? strengthField : levelField)(tanks[at]?.tankId ?? '');
    return list ?? '';
  };
  return { reading, fieldAt };
}
