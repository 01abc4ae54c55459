import { newId } from '../src/app/index.js';
import type { PrismaClient } from '../src/generated/prisma/client.js';
import { SIGNALS, type SignalCode } from '../src/shared/signals.js';
import { fromStored, toStored, type UnitCode } from '../src/shared/units.js';
import { idOf, meterKey, type ScenarioIds, type SkidIds } from './insert-registry.js';
import type { HandValue, Scenario } from './types.js';

const ROWS_AT_ONCE = 1_000;

/** What people did and read: cleans, meters, tanks, work and readings by hand. Each skid has one load for it. */
export async function insertFacts(prisma: PrismaClient, scenario: Scenario, ids: ScenarioIds): Promise<void> {
  const loadNos = new Map<string, number>();
  for (const [key, skid] of ids.skids) loadNos.set(key, await newLoad(prisma, skid, 'events', 'Demo record of events'));
  const skidOfPosition = new Map(scenario.positions.map(({ key, skidKey }) => [key, skidKey]));
  const nameOf = (key: string): string => ids.names.get(key) ?? key;
  const about = (skidKey: string) => ({ clientId: idOf(ids.skids, skidKey).clientId, loadNo: idOf(loadNos, skidKey) });

  await inParts(
    scenario.cleans,
    ({ skidKey, ...clean }) => ({ ...clean, ...about(skidKey), skidId: idOf(ids.skids, skidKey).id }),
    (data) => prisma.clean.createMany({ data }),
  );
  const readings = scenario.meters.flatMap((meter) => meter.readings.map((reading) => ({ meter, reading })));
  await inParts(
    readings,
    ({ meter: { positionKey, kind, readingError }, reading }) => ({
      ...about(idOf(skidOfPosition, positionKey)),
      meterId: idOf(ids.meters, meterKey(positionKey, kind)),
      at: reading.at,
      kind: reading.kind,
      value: reading.kind === 'reading' ? reading.value : reading.newInitial,
      oldFinal: reading.kind === 'reading' ? null : reading.oldFinal,
      readingError,
    }),
    (data) => prisma.meterReading.createMany({ data }),
  );
  const dips = scenario.tanks.flatMap((tank) => tank.dips.map((dip) => ({ tank, dip })));
  await inParts(
    dips,
    ({ tank, dip }) => ({ ...dip, ...about(tank.skidKey), tankId: idOf(ids.tanks, tank.key), readBy: nameOf(dip.readBy) }),
    (data) => prisma.tankDip.createMany({ data }),
  );
  const deliveries = scenario.tanks.flatMap((tank) => tank.deliveries.map((delivery) => ({ tank, delivery })));
  await inParts(
    deliveries,
    ({ tank, delivery }) => ({
      ...delivery,
      ...about(tank.skidKey),
      tankId: idOf(ids.tanks, tank.key),
      by: nameOf(delivery.by),
      product: `${tank.chemical} solution`,
      strengthValue: delivery.strengthGL,
      strengthBasis: 'g/L',
    }),
    (data) => prisma.tankDelivery.createMany({ data }),
  );
  await inParts(
    scenario.serviceEntries,
    ({ skidKey, positionKey, task, at, minutes, by, note }) => ({
      ...about(skidKey),
      skidId: idOf(ids.skids, skidKey).id,
      positionId: positionKey === null ? null : idOf(ids.positions, positionKey),
      task,
      at,
      minutes,
      doneBy: nameOf(by),
      note,
    }),
    (data) => prisma.serviceEntry.createMany({ data }),
  );
  await prisma.serviceStateChange.createMany({
    data: scenario.stateChanges.map(({ skidKey, at, state, by, note }) => {
      const { id: skidId, clientId } = idOf(ids.skids, skidKey);
      return { skidId, clientId, at, state, by: nameOf(by), note };
    }),
  });
  await insertHandReadings(prisma, scenario, ids);
}

async function insertHandReadings(prisma: PrismaClient, scenario: Scenario, ids: ScenarioIds): Promise<void> {
  const skidKeys = new Set(scenario.handReadings.map(({ skidKey }) => skidKey));
  const loadNos = new Map<string, number>();
  for (const key of skidKeys) loadNos.set(key, await newLoad(prisma, idOf(ids.skids, key), 'hand', 'Demo record of readings by hand'));
  const readings = scenario.handReadings.map((reading) => ({ ...reading, id: newId(), skid: idOf(ids.skids, reading.skidKey) }));
  await inParts(
    readings,
    ({ id, skid, skidKey, at, readBy, minutesSinceBackwash }) => ({
      id,
      skidId: skid.id,
      clientId: skid.clientId,
      at,
      readBy: ids.names.get(readBy) ?? readBy,
      minutesSinceBackwash,
      loadNo: idOf(loadNos, skidKey),
    }),
    (data) => prisma.handReading.createMany({ data }),
  );
  const values = readings.flatMap(({ id, skid, skidKey, values: read }) =>
    Object.entries(read).map(([signal, value]) => ({
      handReadingId: id,
      clientId: skid.clientId,
      loadNo: idOf(loadNos, skidKey),
      ...inStoredUnit(signal as SignalCode, value),
    })),
  );
  await inParts(
    values,
    (value) => value,
    (data) => prisma.handValue.createMany({ data }),
  );
}

/** Half the smallest division is the reading error; a difference needs the factor of the unit and not its offset. */
function inStoredUnit(signal: SignalCode, { value, unit, smallestDivision }: HandValue) {
  const same = unit === SIGNALS[signal].unit;
  const convert = (entered: number, code: UnitCode): number => (same ? entered : fromStored(toStored(entered, code), SIGNALS[signal].unit));
  const readingError = (convert(value + smallestDivision, unit) - convert(value, unit)) / 2;
  return { signal, value: convert(value, unit), entered: value, enteredUnit: unit, readingError };
}

/** One load of a skid; its number marks the rows that came with it. */
export async function newLoad(prisma: PrismaClient, { id, clientId }: SkidIds, kind: string, name: string): Promise<number> {
  const { no } = await prisma.load.create({ data: { skidId: id, clientId, kind, name, sha256: '', by: 'demo' } });
  return no;
}

async function inParts<From, Row>(all: readonly From[], toRow: (from: From) => Row, insert: (rows: Row[]) => Promise<unknown>): Promise<void> {
  for (let from = 0; from < all.length; from += ROWS_AT_ONCE) await insert(all.slice(from, from + ROWS_AT_ONCE).map(toRow));
}
