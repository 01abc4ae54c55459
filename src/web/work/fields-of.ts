import { words } from '../words.js';

/** What the parts of a row are called on the sheet, by the list that the row is in. */
export const PART_LABELS: Readonly<Record<string, Readonly<Record<string, string>>>> = {
  partsUsed: { itemId: words.work.item, quantity: words.work.quantity, placeId: words.work.from, lot: words.work.lot },
  partsFitted: {
    positionId: words.work.position,
    itemId: words.work.item,
    serialNumber: words.work.serialNumber,
    lot: words.work.lot,
    setCount: words.work.setCount,
    removalReason: words.work.removalReason,
    fromPlaceId: words.work.from,
  },
  partsRemoved: { positionId: words.work.position, reason: words.work.removalReason, toPlaceId: words.work.toPlace },
  readings: { signal: words.work.gauge, value: words.work.value, unit: words.work.unit },
  cleans: { kind: words.work.kind, chemical: words.work.chemical, strengthMgL: words.work.strength, contactMinutes: words.work.contact },
  integrityTests: {
    startKpa: words.work.startPressure,
    endKpa: words.work.endPressure,
    minutes: words.work.testMinutes,
    settledMinutes: words.work.settled,
    temperatureC: words.work.temperature,
  },
  calibrations: {
    signal: words.work.signal,
    unit: words.work.unit,
    tolerance: words.work.tolerance,
    referenceInstrument: words.work.reference,
    certificateNo: words.work.certificate,
    nextOn: words.work.nextOn,
  },
  fibreRepairs: { positionId: words.work.position, fibres: words.work.fibres },
  followUps: { title: words.work.followTitle, request: words.work.followRequest, severity: words.work.severity },
};
