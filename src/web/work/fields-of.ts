import { workWords } from '../words/work.js';

/** What the parts of a row are called on the sheet, by the list that the row is in. */
export const PART_LABELS: Readonly<Record<string, Readonly<Record<string, string>>>> = {
  partsUsed: { itemId: workWords.item, quantity: workWords.quantity, placeId: workWords.from, lot: workWords.lot },
  partsFitted: {
    positionId: workWords.position,
    itemId: workWords.item,
    serialNumber: workWords.serialNumber,
    lot: workWords.lot,
    setCount: workWords.setCount,
    removalReason: workWords.removalReason,
    fromPlaceId: workWords.from,
  },
  partsRemoved: { positionId: workWords.position, reason: workWords.removalReason, toPlaceId: workWords.toPlace },
  readings: { signal: workWords.gauge, value: workWords.value, unit: workWords.unit },
  cleans: { kind: workWords.kind, chemical: workWords.chemical, strengthMgL: workWords.strength, contactMinutes: workWords.contact },
  integrityTests: {
    startKpa: workWords.startPressure,
    endKpa: workWords.endPressure,
    minutes: workWords.testMinutes,
    settledMinutes: workWords.settled,
    temperatureC: workWords.temperature,
  },
  calibrations: {
    signal: workWords.signal,
    unit: workWords.unit,
    tolerance: workWords.tolerance,
    referenceInstrument: workWords.reference,
    certificateNo: workWords.certificate,
    nextOn: workWords.nextOn,
  },
  fibreRepairs: { positionId: workWords.position, fibres: workWords.fibres },
  followUps: { title: workWords.followTitle, request: workWords.followRequest, severity: workWords.severity },
};
