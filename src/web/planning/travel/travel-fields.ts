import type { Schemas } from '../../api/client.js';
import { travelWords as said } from '../../words/travel.js';

const number = (text: string) => (/^\d+([.,]\d+)?$/.test(text.trim()) ? Number(text.trim().replace(',', '.')) : Number.NaN);
const isWithin = (value: number, least: number, most: number) => value >= least && value <= most;

export const regionStart = (region: Schemas['TravelRegionView'] | undefined) => ({
  name: region?.name ?? '',
  factor: String(region?.factor ?? 1.3),
  nearKmh: String(region?.nearKmh ?? 35),
  farKmh: String(region?.farKmh ?? 70),
  siteIds: '',
});
type RegionEntries = Readonly<ReturnType<typeof regionStart>>;

/** What needs a change before it is sent. */
export function checkRegion({ name, factor, nearKmh, farKmh }: RegionEntries): Partial<Record<keyof RegionEntries, string>> {
  return {
    ...(name.trim() === '' ? { name: said.needName } : {}),
    ...(isWithin(number(factor), 1, 5) ? {} : { factor: said.badFactor }),
    ...(isWithin(number(nearKmh), 1, 200) ? {} : { nearKmh: said.badSpeed }),
    ...(isWithin(number(farKmh), 1, 200) ? {} : { farKmh: said.badSpeed }),
  };
}

/** As it is sent, once it was checked. */
export const regionBody = ({ name, factor, nearKmh, farKmh }: RegionEntries, siteIds: readonly string[]): Schemas['TravelRegionDto'] => ({
  name: name.trim(),
  siteIds: [...siteIds],
  factor: number(factor),
  nearKmh: number(nearKmh),
  farKmh: number(farKmh),
});

export const byHandStart = (way: Partial<Schemas['TravelOverrideView']>) => ({
  fromId: way.fromId ?? '',
  toId: way.toId ?? '',
  minutes: way.minutes === undefined ? '' : String(way.minutes),
  km: way.km === undefined ? '' : String(way.km),
  note: way.note ?? '',
  bothWays: way.bothWays === false ? '' : 'yes',
});
type ByHandEntries = Readonly<ReturnType<typeof byHandStart>>;

/** What needs a change before it is sent. */
export function checkByHand({ fromId, toId, minutes, km }: ByHandEntries): Partial<Record<keyof ByHandEntries, string>> {
  return {
    ...(fromId === '' ? { fromId: said.needPlace } : {}),
    ...(toId === '' ? { toId: said.needPlace } : toId === fromId ? { toId: said.sameEnds } : {}),
    ...(/^\d{1,4}$/.test(minutes.trim()) && isWithin(Number(minutes), 1, 2880) ? {} : { minutes: said.badMinutes }),
    ...(isWithin(number(km), 0, 20_000) ? {} : { km: said.badKm }),
  };
}

/** As it is sent, once it was checked. */
export const byHandBody = ({ fromId, toId, minutes, km, note, bothWays }: ByHandEntries): Schemas['TravelOverrideDto'] => ({
  fromId,
  toId,
  bothWays: bothWays === 'yes',
  minutes: Number(minutes),
  km: number(km),
  note: note.trim(),
});

/** A way by the names of its ends. */
export function pairInWords({ fromName, toName, bothWays }: Pick<Schemas['TravelOverrideView'], 'fromName' | 'toName' | 'bothWays'>): string {
  const [from, to] = [fromName ?? said.gone, toName ?? said.gone];
  return bothWays ? said.bothWays(from, to) : said.oneWay(from, to);
}
