import { describe, expect, test } from '@jest/globals';
import { judgeTest } from '../src/integrity/core/judge-test.js';
import { isSignalCode, SIGNALS } from '../src/shared/signals.js';
import { toStored } from '../src/shared/units.js';
import { buildScenario } from './scenario.js';

const until = new Date('2026-03-10T07:00:00Z');

const demo = buildScenario({ until });

function take<T>(list: Iterable<T>, count: number): T[] {
  const taken: T[] = [];
  for (const one of list) if (taken.push(one) === count) break;
  return taken;
}

describe('the demo scenario', () => {
  test('is the same for the same moment', () => {
    const again = buildScenario({ until });
    const plain = (scenario: typeof demo) => JSON.stringify(scenario);
    expect(plain(again)).toBe(plain(demo));
    for (const key of demo.skidsWithCycles) expect(take(again.cyclesOf(key), 300)).toEqual(take(demo.cyclesOf(key), 300));
    for (const key of demo.skidsWithSamples) expect(take(again.samplesOf(key), 300)).toEqual(take(demo.samplesOf(key), 300));
  });

  test('has five clients, eight sites, twelve skids of three schemes, and two shared units', () => {
    expect([demo.clients.length, demo.sites.length]).toEqual([5, 8]);
    const skids = demo.skids.filter(({ kind }) => kind === 'skid');
    expect(skids).toHaveLength(12);
    expect(new Set(skids.map(({ flowScheme }) => flowScheme))).toEqual(new Set(['dead-end', 'cross-flow', 'submerged']));
    expect(new Set(skids.map(({ water }) => water)).size).toBe(5);
    expect(demo.skids.filter(({ kind }) => kind === 'shared').map(({ servesKeys }) => servesKeys.length)).toEqual([2, 2]);
    expect([demo.skidsWithCycles.length, demo.skidsWithSamples.length]).toEqual([9, 2]);
  });

  test('says of itself that it is a demo', () => {
    expect(demo.demo).toBe(true);
    for (const { name } of demo.clients) expect(name).toMatch(/\(demo\)$/);
    for (const { email } of demo.people) expect(email).toMatch(/@example\.org$/);
  });

  test('uses each key and each name on a skid once', () => {
    const lists = [demo.clients, demo.sites, demo.people, demo.skids, demo.positions, demo.tanks].map((list) => list.map(({ key }) => key));
    const names = demo.positions.map(({ skidKey, name }) => `${skidKey} ${name}`);
    const serials = demo.fittings.flatMap(({ itemCode, serialNumber }) => (serialNumber === null ? [] : [`${itemCode} ${serialNumber}`]));
    const cleans = demo.cleans.map(({ skidKey, kind, at, chemical }) => `${skidKey} ${kind} ${at.toISOString()} ${chemical}`);
    for (const list of [...lists, names, serials, cleans]) expect(new Set(list).size).toBe(list.length);
  });

  test('names nothing that it does not hold', () => {
    const keysOf = (list: readonly { key: string }[]) => new Set(list.map(({ key }) => key));
    const [skids, positions, people] = [keysOf(demo.skids), keysOf(demo.positions), keysOf(demo.people)];
    const items = new Set(demo.items.map(({ code }) => code));
    const unknown = [
      ...demo.positions.filter(({ skidKey, parentKey }) => !skids.has(skidKey) || (parentKey !== null && !positions.has(parentKey))),
      ...demo.fittings.filter(({ positionKey, itemCode, fittedBy }) => !positions.has(positionKey) || !items.has(itemCode) || !people.has(fittedBy)),
      ...demo.meters.filter(({ positionKey }) => !positions.has(positionKey)),
      ...demo.tanks.filter(({ skidKey }) => !skids.has(skidKey)),
      ...demo.serviceEntries.filter(
        ({ positionKey, skidKey, by }) => (positionKey !== null && !positions.has(positionKey)) || !skids.has(skidKey) || !people.has(by),
      ),
      ...demo.handReadings.filter(({ skidKey, readBy }) => !skids.has(skidKey) || !people.has(readBy)),
      ...demo.rules.flatMap(({ parts }) => parts.filter(({ itemCode }) => !items.has(itemCode))),
    ];
    expect(unknown).toEqual([]);
  });

  test('holds one part in a position at a time', () => {
    const overlaps = demo.fittings.filter((one) =>
      demo.fittings.some(
        (other) => other !== one && other.positionKey === one.positionKey && other.fittedAt <= one.fittedAt && (other.removedAt ?? until) > one.fittedAt,
      ),
    );
    expect(overlaps).toEqual([]);
    for (const { fittedAt, removedAt } of demo.fittings) expect((removedAt ?? until) > fittedAt).toBe(true);
  });

  test('has nothing that happens after its end', () => {
    const moments = [
      ...demo.cleans.map(({ at }) => at),
      ...demo.fittings.map(({ fittedAt }) => fittedAt),
      ...demo.meters.flatMap(({ readings }) => readings.map(({ at }) => at)),
      ...demo.tanks.flatMap(({ dips, deliveries }) => [...dips, ...deliveries].map(({ at }) => at)),
      ...demo.serviceEntries.map(({ at }) => at),
      ...demo.handReadings.map(({ at }) => at),
    ];
    expect(moments.filter((at) => at > until)).toEqual([]);
  });

  test('has work that is overdue, work that is due soon, and mostly work that is not', () => {
    const lastDone = new Map(demo.serviceEntries.map(({ positionKey, task, at }) => [`${positionKey} ${task}`, at]));
    const daysLeft = demo.positions.flatMap(({ key, kind }) =>
      demo.rules.flatMap(({ positionKind, task, days }) => {
        const at = lastDone.get(`${key} ${task}`);
        return positionKind !== kind || days === null || at === undefined ? [] : [days - (until.getTime() - at.getTime()) / 86_400_000];
      }),
    );
    const share = (low: number, high: number) => daysLeft.filter((left) => left >= low && left < high).length / daysLeft.length;
    expect(share(-1000, 0)).toBeGreaterThan(0.01);
    expect(share(-1000, 0)).toBeLessThan(0.1);
    expect(share(0, 14)).toBeGreaterThan(0.04);
    expect(share(14, 5000)).toBeGreaterThan(0.75);
  });
});

describe('readings by hand', () => {
  test('are possible values of their signals', () => {
    for (const { values } of demo.handReadings) {
      for (const [code, { value, unit }] of Object.entries(values)) {
        if (!isSignalCode(code)) throw new Error(`${code} is no signal`);
        const [low, high] = SIGNALS[code].plausible;
        const stored = toStored(value, unit);
        expect([code, stored >= low && stored <= high]).toEqual([code, true]);
      }
    }
  });

  test('stop two months before the end on one skid, and miss some things on all', () => {
    const last = (skidKey: string) => demo.handReadings.filter((reading) => reading.skidKey === skidKey).at(-1)?.at ?? until;
    const daysSilent = ['sill-1', 'tam-1', 'wick-2'].map((key) => (until.getTime() - last(key).getTime()) / 86_400_000);
    expect(daysSilent.filter((days) => days < 8)).toHaveLength(2);
    expect(daysSilent.filter((days) => days > 60 && days < 69)).toHaveLength(1);
    const missing = demo.handReadings.filter(({ minutesSinceBackwash }) => minutesSinceBackwash === null).length / demo.handReadings.length;
    expect(missing).toBeGreaterThan(0.15);
    expect(missing).toBeLessThan(0.4);
  });

  test('agree with each other: totaliser, hour meter and flow', () => {
    const readings = demo.handReadings.filter(({ skidKey }) => skidKey === 'sill-1');
    const meter = demo.meters.find(({ positionKey }) => positionKey === 'sill-1 Feed pump');
    const hours = (at: Date) =>
      meter?.readings.flatMap((reading) => (reading.kind === 'reading' && reading.at.getTime() === at.getTime() ? [reading.value] : []))[0] ?? Number.NaN;
    const flows = readings.slice(1).map((reading, index) => {
      const before = readings[index] ?? reading;
      const m3 = (reading.values.filtrate_total?.value ?? Number.NaN) - (before.values.filtrate_total?.value ?? Number.NaN);
      return m3 / (hours(reading.at) - hours(before.at));
    });
    expect(flows.length).toBeGreaterThan(90);
    for (const flowM3h of flows) expect(Math.abs(flowM3h / 15 - 1)).toBeLessThan(0.02);
  });
});

describe('a fleet of another size', () => {
  test('has so many skids, with clients and sites of their own', () => {
    const fleet = buildScenario({ until, skids: 30, years: 0.1, cyclesPerDay: 6 });
    expect(fleet.skids.filter(({ kind }) => kind === 'skid')).toHaveLength(30);
    expect(new Set(fleet.sites.map(({ clientKey, name }) => `${clientKey} ${name}`)).size).toBe(fleet.sites.length);
    const keys = [fleet.clients, fleet.sites, fleet.skids, fleet.positions, fleet.tanks].flatMap((list) => list.map(({ key }) => key));
    expect(new Set(keys).size).toBeGreaterThan(30);
    expect(new Set(fleet.tanks.map(({ key }) => key)).size).toBe(fleet.tanks.length);
    expect(new Set(fleet.positions.map(({ key }) => key)).size).toBe(fleet.positions.length);
    expect(buildScenario({ until, skids: 3, years: 0.1 }).skids.map(({ key }) => key)).toEqual(['fern-1', 'fern-2', 'wick-1', 'fern-cip']);
  });

  test('makes as much water with fewer and longer cycles', () => {
    const few = [...buildScenario({ until, skids: 1, years: 0.25, cyclesPerDay: 6 }).cyclesOf('fern-1')];
    const many = [...buildScenario({ until, skids: 1, years: 0.25 }).cyclesOf('fern-1')];
    const m3 = (cycles: typeof few) => cycles.reduce((sum, { filtrateM3 }) => sum + (filtrateM3 ?? 0), 0);
    expect(few.length / 91).toBeGreaterThan(4);
    expect(few.length / 91).toBeLessThan(9);
    expect(Math.abs(m3(few) / m3(many) - 1)).toBeLessThan(0.08);
  });
});

describe('the work of the demo', () => {
  const { work } = demo;
  const skidOf = new Map(demo.skids.map((skid) => [skid.key, skid]));
  const people = new Set(demo.people.map(({ key }) => key));
  const positions = new Map(demo.positions.map((position) => [position.key, position]));
  const jobs = work.visits.flatMap(({ jobs: own }) => own);

  test('names nothing that the scenario does not hold', () => {
    const places = new Set(work.places.map(({ key }) => key));
    const items = new Set(demo.items.map(({ code }) => code));
    const moves = work.stockPosts.flatMap((post) => post.moves);
    const unknown = [
      ...work.places.filter(
        ({ personKey, siteKey }) => (personKey !== null && !people.has(personKey)) || (siteKey !== null && !demo.sites.some(({ key }) => key === siteKey)),
      ),
      ...work.stockPosts.filter(({ by }) => !people.has(by)),
      ...moves.filter(({ itemCode, fromKey, toKey }) => !items.has(itemCode) || [fromKey, toKey].some((key) => key !== null && !places.has(key))),
      ...jobs.filter(({ skidKey, by }) => !skidOf.has(skidKey) || !people.has(by)),
      ...jobs.flatMap(({ skidKey, tasks }) => tasks.filter(({ positionKey }) => positionKey !== null && positions.get(positionKey)?.skidKey !== skidKey)),
      ...work.breakdowns.filter(({ skidKey, positionKey, takenBy }) => positions.get(positionKey ?? '')?.skidKey !== skidKey || !people.has(takenBy)),
      ...work.decayTests.filter(({ skidKey, by }) => !skidOf.has(skidKey) || !people.has(by)),
      ...work.fibreRepairs.filter(({ skidKey, positionKey }) => positions.get(positionKey)?.skidKey !== skidKey),
      ...work.calibrations.filter(({ positionKey, by }) => positions.get(positionKey)?.signal == null || !people.has(by)),
      ...work.noticeChoices.filter(({ personKey }) => !people.has(personKey)),
    ];
    expect(unknown).toEqual([]);
  });

  test('is done by technicians, after commissioning and before the end', () => {
    const technicians = new Set(demo.people.flatMap(({ key, role }) => (role === 'technician' ? [key] : [])));
    const moments = [
      ...jobs.map(({ skidKey, startedAt, finishedAt }) => ({ skidKey, from: startedAt, to: finishedAt })),
      ...work.breakdowns.map(({ skidKey, noticedAt, restoredAt }) => ({ skidKey, from: noticedAt, to: restoredAt })),
      ...work.decayTests.map(({ skidKey, at }) => ({ skidKey, from: at, to: at })),
      ...work.calibrations.map(({ positionKey, at }) => ({ skidKey: positions.get(positionKey)?.skidKey ?? '', from: at, to: at })),
    ];
    const outside = moments.filter(({ skidKey, from, to }) => from < new Date(`${skidOf.get(skidKey)?.commissionedOn}T00:00:00Z`) || to > until || from > to);
    expect(outside).toEqual([]);
    expect(work.visits.flatMap((visit) => visit.people).filter((key) => !technicians.has(key))).toEqual([]);
  });

  test('has each entry of the last year in one visit, at the site of its skid', () => {
    const year = demo.serviceEntries.filter(({ at }) => until.getTime() - at.getTime() <= 365 * 86_400_000);
    expect(jobs.flatMap(({ tasks }) => tasks)).toHaveLength(year.length);
    for (const { siteKey, jobs: own } of work.visits) for (const { skidKey } of own) expect(skidOf.get(skidKey)?.siteKey).toBe(siteKey);
  });

  test('never takes more from a place than lies there', () => {
    const onHand = new Map<string, number>();
    const add = (place: string | null, item: string, quantity: number) => {
      if (place !== null) onHand.set(`${place} ${item}`, (onHand.get(`${place} ${item}`) ?? 0) + quantity);
    };
    for (const { moves } of work.stockPosts) {
      for (const { itemCode, lot, quantity, fromKey, toKey } of moves) {
        add(fromKey, `${itemCode} ${lot}`, -quantity);
        add(toKey, `${itemCode} ${lot}`, quantity);
      }
      expect([...onHand].filter(([, quantity]) => quantity < 0)).toEqual([]);
    }
    expect([...onHand].filter(([key, quantity]) => key.startsWith('van-') && quantity > 0).length).toBeGreaterThan(8);
  });

  test('has one test of fibres that failed, with a repair and a test again on the same day', () => {
    const results = work.decayTests.map((decay) => {
      const setup = work.integritySetups.find(({ skidKey }) => skidKey === decay.skidKey);
      if (setup === undefined) throw new Error(`${decay.skidKey} has no setup`);
      const usual = { netExpansion: 0.7, atmosphericKpa: 101.325, airLiquidRatio: null, concentration: 1, poreShape: 1, contactAngleDeg: 0 };
      return { ...decay, outcome: judgeTest(decay, { ...usual, leastSettledMin: 5, gaugeStepKpa: 0.1, ...setup }).outcome };
    });
    const failed = results.filter(({ outcome }) => outcome === 'failed');
    expect([failed.length, results.filter(({ outcome }) => outcome === 'passed').length]).toEqual([1, 39]);
    const day = failed[0]?.at.toISOString().slice(0, 10);
    expect(work.fibreRepairs.map(({ at }) => at.toISOString().slice(0, 10))).toEqual([day]);
    const sameDay = results.filter(({ skidKey, at }) => skidKey === failed[0]?.skidKey && at.toISOString().slice(0, 10) === day);
    expect(sameDay.map(({ outcome }) => outcome)).toEqual(['failed', 'passed']);
  });

  test('finds the transmitter out of tolerance that shows too much, and no other', () => {
    const off = work.calibrations.filter(({ points, tolerance }) => points.some(({ reference, asFound }) => Math.abs(asFound - reference) > tolerance));
    expect(new Set(off.map(({ positionKey }) => positionKey))).toEqual(new Set(['fern-2 Feed pressure transmitter']));
    for (const { points, tolerance } of off)
      for (const { reference, asLeft } of points) expect(Math.abs((asLeft ?? Infinity) - reference)).toBeLessThan(tolerance);
  });
});
