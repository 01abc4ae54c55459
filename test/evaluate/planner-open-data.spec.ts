import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from '@jest/globals';
import { checkTours } from '../../src/evaluate/technicians/check.js';
import { readTechnicians, type TechniciansInstance, problemOf as techniciansProblem } from '../../src/evaluate/technicians/instance.js';
import { checkRoutes } from '../../src/evaluate/vrptw/check.js';
import { problemOf, readSolomon } from '../../src/evaluate/vrptw/solomon.js';
import { improve, SHORT_TOURS } from '../../src/visits/core/planner/improve.js';

const DATA = join(import.meta.dirname, '../../../shared/data');
const SOLOMON = join(DATA, 'vrptw/solomon');
const TECHNICIANS = join(DATA, 'trsp');
const afterSteps = (most: number) => (steps: number) => steps / most;

/** Solomon 1987, Operations Research 35(2); distances cut to one decimal, best known values as in the table of CVRPLIB (c101 827.3, r101 1637.7). */
(existsSync(SOLOMON) ? describe : describe.skip)('published routing problems with time windows (skipped without the open data)', () => {
  test.each([
    ['C101', 827.3, 3000, 0],
    ['R101', 1637.7, 12_000, 0.01],
    ['RC101', 1619.8, 12_000, 0.03],
  ])('%s comes near the best known distance of %d', (name, best, steps, within) => {
    const instance = readSolomon(readFileSync(join(SOLOMON, `${name}.txt`), 'utf8'));
    const plan = improve(problemOf(instance, true), 1, afterSteps(steps));
    const checked = checkRoutes(
      instance,
      plan.routes.filter((route) => route.length > 0).map((route) => route.map((visit) => visit + 1)),
      true,
    );
    expect(checked.why).toBe('');
    expect(checked.distance).toBeLessThanOrEqual(best * (1 + within) + 0.05);
    expect(checked.distance).toBeGreaterThanOrEqual(best - 0.05);
  });
});

/** Pillac, Gueret, Medaglia 2013, Optimization Letters 7(7): problems, and the authors' best tours with their working time. */
(existsSync(TECHNICIANS) ? describe : describe.skip)('published technician routing problems (skipped without the open data)', () => {
  const files = existsSync(TECHNICIANS) ? readdirSync(join(TECHNICIANS, 'pillac-crew25')).filter((file) => file.endsWith('.txt')) : [];
  const instanceOf = (file: string) => readTechnicians(readFileSync(join(TECHNICIANS, 'pillac-crew25', file), 'utf8'));

  test('the check finds every published tour feasible, and its working time as stated', () => {
    const lines = readFileSync(join(TECHNICIANS, 'pillac-minwt.sol'), 'utf8').split(/\r?\n/);
    const published = new Map(
      lines.flatMap((line) => [/^(\S+?)=(.*)$/.exec(line)].flatMap((found) => (found === null ? [] : [[found[1] ?? '', found[2] ?? ''] as const]))),
    );
    const differs = files.flatMap((file) => {
      const instance = instanceOf(file);
      const name = file.replace('.txt', '');
      const tours = published.get(`${name}-S`);
      const stated = Number(published.get(name));
      if (tours === undefined) return [];
      const checked = checkTours(instance, toursOf(instance, tours));
      return checked.feasible && Math.abs(checked.cost - stated) < 0.5 ? [] : [`${name}: ${checked.why} ${checked.cost} for ${stated}`];
    });
    expect(differs).toEqual([]);
    expect(files.length).toBeGreaterThan(0);
  });

  test('all requests are served within a few per cent of the published time', () => {
    const file = files.find((name) => name.startsWith('C101')) ?? '';
    const instance = instanceOf(file);
    const plan = improve(techniciansProblem(instance), 1, afterSteps(6000), SHORT_TOURS);
    const tours = plan.routes.flatMap((requests, technician) =>
      requests.length === 0 ? [] : [{ technician, requests, depotAt: plan.storeAt[technician] ?? -1 }],
    );
    const checked = checkTours(instance, tours);
    expect(checked.why).toBe('');
    expect(plan.cost).toBeCloseTo(checked.cost, 6);
    expect(checked.cost).toBeLessThan(10_717.5161 * 1.05);
  });
});

/** `<technician,stop,stop,...,home|...>`; stops after the requests and homes are the depot. */
function toursOf({ technicians, requests }: TechniciansInstance, text: string) {
  const last = technicians.length + requests.length;
  return text
    .replace(/[<>]/g, '')
    .split('|')
    .flatMap((tour) => {
      const [technician, ...stops] = tour.split(',').map(Number);
      if (technician === undefined || stops.length < 2) return [];
      const visited = stops.filter((stop) => stop <= last || stop > last + technicians.length);
      const depotAt = visited.findIndex((stop) => stop > last);
      return [{ technician: technician - 1, requests: visited.filter((stop) => stop <= last).map((stop) => stop - 1 - technicians.length), depotAt }];
    });
}
