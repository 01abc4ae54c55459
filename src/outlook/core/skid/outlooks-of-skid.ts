import { cumsum } from 'd3-array';
import { localDays } from '../../../condition/core/local-day.js';
import { dayInWords, daysBetween } from '../../../shared/day.js';
import type { OutlookLimit } from '../../../shared/upkeep-terms.js';
import { cartridgeOutlook, type FleetOfSet } from '../cartridge-outlook.js';
import { type SetCourse, setCourse } from '../clogging/set-course.js';
import { doubtsOfOutlook } from '../doubts-of-outlook.js';
import { earlierLives } from '../earlier-runs.js';
import type { Outlook } from '../outlook.js';
import type { StretchFor } from '../record/calibration.js';
import { type KeptLife, type LearnedFleet, toEarlierLife } from './kept-life.js';
import type { KnownOfSkid, OutlookDay, OutlookFacts, OutlookToStore, SetFitted } from './known-of-skid.js';
import type { LearnedMembranes } from './learned-membranes.js';
import { membranesOfSkid } from './membranes-of-skid.js';
import { oddRecord } from './odd-record.js';

const LOAD_DAYS = 28;

/** What all skids taught. */
export interface Learned {
  /** By item of the cartridges */
  readonly fleets: ReadonlyMap<string, LearnedFleet>;
  /** `null`: no skid had weeks to learn from */
  readonly membranes: LearnedMembranes | null;
  readonly stretchFor: StretchFor;
}

const NOTHING_LEARNED: Learned = { fleets: new Map(), membranes: null, stretchFor: () => 1 };

/** The forecasts of a skid from what is known of it: the membranes, and each cartridge set that is fitted. */
export function outlooksOf(
  known: KnownOfSkid,
  origin: Date,
  days: readonly OutlookDay[],
  cleans: readonly string[],
  sets: readonly SetFitted[],
  learned: Learned = NOTHING_LEARNED,
): OutlookToStore[] {
  const read = days.map(asRead);
  return [
    ...ofMembranes(known, origin, read, cleans, learned),
    ...sets.filter(({ removedOn }) => removedOn === null).flatMap((set) => ofSet(known, origin, read, set, sets, learned)),
  ];
}

/** What is no number was not read. Nearly every day is as it was read, and stays what it is. */
const asRead = (day: OutlookDay): OutlookDay => {
  if ([day.filtrateM3, day.permeability, day.cartridgeDpKpa, day.fluxLmh ?? null].every((value) => value === null || Number.isFinite(value))) return day;
  const read = (value: number | null) => (value === null || Number.isFinite(value) ? value : null);
  const { filtrateM3, permeability, cartridgeDpKpa, fluxLmh = null } = day;
  return { ...day, filtrateM3: read(filtrateM3), permeability: read(permeability), cartridgeDpKpa: read(cartridgeDpKpa), fluxLmh: read(fluxLmh) };
};

function ofMembranes(facts: KnownOfSkid, origin: Date, days: readonly OutlookDay[], cleans: readonly string[], learned: Learned): OutlookToStore[] {
  const said = membranesOfSkid(facts, { origin, days, cleans, loadDays: loadDays(facts, days) }, learned);
  if (said === null) return [];
  const stored = toStore(said.outlook, facts, {
    subject: 'membranes',
    partId: null,
    limitKind: 'permeability',
    limitValue: said.limitLmhBar,
    clock: 'filtrate per membrane area',
    originAt: origin,
    learnedAt: learned.membranes?.at ?? null,
    odd: oddRecord({
      ...said.record,
      what: 'The permeability',
      unit: 'L/m2 h bar',
      limit: said.limitLmhBar,
      isMetWhen: 'below',
      fittedOn: null,
      originDay: said.outlook.originDay,
    }),
  });
  return [said.nextClean === null ? stored : { ...stored, reason: `${stored.reason} ${said.nextClean}` }];
}

function ofSet(
  facts: KnownOfSkid,
  origin: Date,
  days: readonly OutlookDay[],
  set: SetFitted,
  sets: readonly SetFitted[],
  { fleets, stretchFor }: Learned,
): OutlookToStore[] {
  const fleet = fleets.get(set.itemId);
  const { cartridgeLimitKpa: limitKpa, timeZone } = facts;
  if (limitKpa === null) return [];
  const run = days.filter(({ day }) => day >= set.fittedOn);
  const loads = cumsum(run, ({ filtrateM3 }) => filtrateM3 ?? 0);
  // The day of the change mixes the old set and the new one.
  const points = run.flatMap(({ day, cartridgeDpKpa }, index) =>
    cartridgeDpKpa === null || day === set.fittedOn ? [] : [{ day, dpKpa: cartridgeDpKpa, loadM3: loads[index] ?? 0 }],
  );
  const earlier = sets.flatMap(({ positionId, fittedOn, removedOn, removalReason: reason }) =>
    positionId !== set.positionId || removedOn === null ? [] : [{ fittedOn, removedOn, reason }],
  );
  const outlook = cartridgeOutlook({
    points,
    limitKpa,
    earlierLives: earlierLives(days, earlier, limitKpa),
    dailyLoad: { meanM3: facts.dailyLoadM3 ?? 0, sdM3: facts.dailyLoadSd ?? 0, days: loadDays(facts, days) },
    loadNowM3: loads.at(-1) ?? 0,
    origin,
    timeZone,
    stretchFor,
    ...fleetOf(set, sets, days, limitKpa, fleet),
  });
  return [
    toStore(outlook, facts, {
      subject: set.positionId,
      partId: set.partId,
      limitKind: 'cartridge dP',
      limitValue: limitKpa,
      clock: 'filtrate since the set was fitted',
      originAt: origin,
      learnedAt: fleet?.at ?? null,
      odd: oddRecord({
        what: 'The cartridge pressure drop',
        unit: 'kPa',
        values: points.map(({ day, dpKpa }) => ({ day, value: dpKpa })),
        filtrate: run.map(({ day, filtrateM3 }) => ({ day, m3: filtrateM3 })),
        limit: limitKpa,
        isMetWhen: 'above',
        fittedOn: set.fittedOn,
        originDay: outlook.originDay,
      }),
    }),
  ];
}

/** The lives of a skid's sets that are out again, as the fleet keeps them. */
export function cloggingLives(days: readonly OutlookDay[], sets: readonly SetFitted[], limitKpa: number | null): KeptLife[] {
  if (limitKpa === null) return [];
  return sets.flatMap((set) => {
    const course = set.removedOn === null ? null : courseOf(days, set, limitKpa);
    if (course === null || set.removedOn === null) return [];
    const { positionId, partId, itemId, removedOn } = set;
    return [{ positionId, partId, itemId, place: placeOf(set, sets), endedOn: removedOn, ...course }];
  });
}

const courseOf = (days: readonly OutlookDay[], { fittedOn, removedOn, removalReason: reason, setCount }: SetFitted, limitKpa: number): SetCourse | null =>
  setCourse(days, { fittedOn, removedOn, reason, cartridges: setCount, limitKpa });

const placeOf = (set: SetFitted, sets: readonly SetFitted[]): number =>
  sets.filter(({ positionId, fittedOn }) => positionId === set.positionId && fittedOn < set.fittedOn).length;

function fleetOf(
  set: SetFitted,
  sets: readonly SetFitted[],
  days: readonly OutlookDay[],
  limitKpa: number,
  learned: LearnedFleet | undefined,
): { fleet?: FleetOfSet } {
  if (learned === undefined) return {};
  const own = cloggingLives(days, sets, limitKpa).filter(({ positionId, itemId }) => positionId === set.positionId && itemId === set.itemId);
  const { positionId, itemId, setCount } = set;
  const course = courseOf(days, set, limitKpa) ?? { clock: [], level: [] };
  return { fleet: { fleet: learned.fleet, own: own.map(toEarlierLife), positionId, itemId, place: placeOf(set, sets), cartridges: setCount, course } };
}

/** Days that the mean load was made from; 0 where there is none. */
function loadDays({ dailyLoadM3 }: OutlookFacts, days: readonly OutlookDay[]): number {
  const [first, last] = [days[0], days.at(-1)];
  return dailyLoadM3 === null || first === undefined || last === undefined ? 0 : Math.min(LOAD_DAYS, daysBetween(first.day, last.day));
}

interface About {
  readonly subject: string;
  readonly partId: string | null;
  readonly limitKind: OutlookLimit;
  readonly limitValue: number;
  readonly clock: string;
  readonly originAt: Date;
  /** When the fleet was learned from; null: only this skid was */
  readonly learnedAt: Date | null;
  /** What cannot be right in the record, in sentences */
  readonly odd: readonly string[];
}

function toStore(outlook: Outlook, known: KnownOfSkid, { learnedAt, odd, ...about }: About): OutlookToStore {
  const { kind, model, modelVersion, originDay, reason } = outlook;
  const { firstDay, lastDay } = outlook.dataUsed;
  // The model takes the days as they are: whoever reads the outlook has to know which of them to trust.
  const doubts = [...odd, ...doubtsOfOutlook(known.doubts, { limit: about.limitKind, firstDay, lastDay, basis: known })];
  const learned = learnedAt === null ? [] : [`Learned from the fleet on ${dayInWords(localDays(known.timeZone)(learnedAt.getTime()).day, '')}`];
  const base = {
    ...about,
    kind,
    model,
    modelVersion,
    originDay,
    firstValue: reason.firstValue,
    reason: [reason.text, ...doubts].join(' '),
    dataUsed: [...inWords(outlook), ...learned, ...doubts],
  };
  if (outlook.kind !== 'outlook') return { ...base, stretch: 1, metByDay: [], shareBeyond: null, p10Days: null, p50Days: null, p90Days: null, path: [] };
  const { metByDay, shareBeyond, p10Days, p50Days, p90Days, path, stretch } = outlook;
  return { ...base, stretch, metByDay, shareBeyond, p10Days, p50Days, p90Days, path };
}

function inWords({ dataUsed, reason }: Outlook): string[] {
  const { firstDay, lastDay, points, earlierLives: lives, dailyLoad, dailyLoadDays, loadUnit } = dataUsed;
  const values = firstDay === null || lastDay === null ? 'No daily values' : `${points} daily values from ${firstDay} to ${lastDay}`;
  const load = dailyLoadDays === 0 ? 'No mean load yet' : `Mean load ${dailyLoad.toPrecision(3)} ${loadUnit} a day over ${dailyLoadDays} days`;
  return [values, load, `${lives} earlier runs or sets`, `Limit ${reason.limit.toPrecision(4)}`];
}
