import { TECHNICIANS } from '../data/people.js';
import type { ScenarioFitting } from '../types.js';
import type { Course } from './course.js';
import { DAY_MS, dayText } from './period.js';
import { type BuiltPosition, moduleName, positionKey } from './positions.js';
import { randomOf, seedOf } from './random.js';
import { repairTime } from './stops.js';

/** Why people take a set out, as they write it. */
export const CHANGED_EARLY = 'changed by the calendar';
export const CHANGED_AT_LIMIT = 'pressure drop at the limit';

/** What was built in when the plant was commissioned. */
export function firstFittings(positions: readonly BuiltPosition[], commissionedMs: number): ScenarioFitting[] {
  const year = dayText(commissionedMs).slice(2, 4);
  return positions.flatMap(({ key, itemCode, hasSerial }) =>
    itemCode === null ? [] : [fitting(key, itemCode, commissionedMs, { serialNumber: hasSerial ? serialNumber(itemCode, key, year) : null })],
  );
}

/** Sets of cartridges, one after the other. */
export function cartridgeFittings({ plan, cartridgeRuns, period }: Course): ScenarioFitting[] {
  const { cartridge } = plan;
  if (cartridge === null) return [];
  const random = randomOf(`${plan.key} sets`);
  return cartridgeRuns.map(({ fromMs, toMs }) => {
    const by = random.pick(TECHNICIANS);
    const removal = toMs === null ? {} : { removedAt: new Date(toMs), removedBy: by, removalReason: cartridge.early ? CHANGED_EARLY : CHANGED_AT_LIMIT };
    const lot = `L${dayText(fromMs - random.between(30, 200) * DAY_MS)
      .replaceAll('-', '')
      .slice(2)}`;
    return {
      ...fitting(positionKey(plan.key, 'Cartridge housing'), cartridge.itemCode, Math.min(fromMs, period.untilMs), {
        setCount: cartridge.count,
        lot,
        fittedBy: by,
      }),
      ...removal,
    };
  });
}

/** Ends what was built in first where it was replaced since: the seal of the worn pump, and a module with broken fibres. */
export function withReplacements(first: readonly ScenarioFitting[], { plan, period, offsetMs }: Course): ScenarioFitting[] {
  const { wear, isolatedModule } = plan;
  const replaced = [
    ...(wear ? [{ key: positionKey(plan.key, 'Feed pump: seal'), daysAgo: wear.sealDaysAgo, reason: 'leaking' }] : []),
    ...(isolatedModule ? [{ key: positionKey(plan.key, moduleName(1)), daysAgo: isolatedModule.toDaysAgo, reason: 'broken fibres' }] : []),
  ];
  return first.flatMap((old) => {
    const one = replaced.find(({ key }) => key === old.positionKey);
    if (one === undefined) return [old];
    const atMs = repairTime(one.daysAgo, period, offsetMs);
    const by = TECHNICIANS[0];
    const serial = old.serialNumber === null ? null : serialNumber(old.itemCode, `${one.key} second`, dayText(atMs).slice(2, 4));
    const fresh = fitting(old.positionKey, old.itemCode, atMs, { serialNumber: serial, fittedBy: by });
    return [{ ...old, removedAt: new Date(atMs), removedBy: by, removalReason: one.reason }, fresh];
  });
}

function fitting(key: string, itemCode: string, fittedMs: number, rest: Partial<ScenarioFitting>): ScenarioFitting {
  return {
    positionKey: key,
    itemCode,
    serialNumber: null,
    setCount: 1,
    lot: null,
    fittedAt: new Date(fittedMs),
    fittedBy: TECHNICIANS[1],
    removedAt: null,
    removedBy: null,
    removalReason: null,
    ...rest,
  };
}

/** Make, year of make, and letters made from the place by two hashes, so that the places of a large fleet do not share a number. */
function serialNumber(itemCode: string, place: string, year: string): string {
  const letters = (seed: number, count: number) => seed.toString(36).toUpperCase().padStart(count, '0').slice(-count);
  return `${itemCode.slice(5).replace('-', '')}-${year}-${letters(seedOf(place), 7)}${letters(seedOf(`serial ${place}`), 2)}`;
}
