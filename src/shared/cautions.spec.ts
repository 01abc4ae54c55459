import { describe, expect, test } from '@jest/globals';
import { cautionsFor } from './cautions.js';
import { HAZARDS, TASK_KINDS } from './task-sheet.js';

const told = (work: Partial<Parameters<typeof cautionsFor>[0]>) =>
  cautionsFor({ kinds: [], chemicals: [], hazards: [], ...work })
    .map(({ text }) => text)
    .join(' ');

// What is dangerous about this work: common practice; hypochlorite as in the incompatibility chart of the Chlorine Institute.
describe('the cautions of a job', () => {
  test('begin with what kills, and end with the rules that go before them', () => {
    const cautions = cautionsFor({ kinds: ['clean'], chemicals: ['citric acid', 'NaOCl'], hazards: ['heavy lift', 'confined space'] });
    expect(cautions.slice(0, 2).map(({ about }) => about)).toEqual(['Chlorine gas', 'Chlorine gas']);
    expect(cautions.findIndex(({ about }) => about === 'Confined space')).toBeLessThan(cautions.findIndex(({ about }) => about === 'Heavy parts'));
    expect(cautions.at(-1)?.text).toMatch(/manual.*local codes.*licensed/);
  });

  test.each([
    ['a clean with hypochlorite', { kinds: ['clean'], chemicals: ['Sodium hypochlorite 12.5 %'] }, /any acid.*chlorine gas.*builds pressure.*permit/],
    ['preservative', { kinds: ['preservative'], chemicals: ['sodium bisulfite'] }, /oxygen.*tank.*never dry out or freeze/],
    ['an integrity test', { kinds: ['integrity test'] }, /Never over the test pressure.*kept from supply.*regulator/],
    ['a restart', { kinds: ['restart'] }, /disinfect.*integrity test.*clear sample/],
    ['electric work', { hazards: ['electricity'] }, /lock and tag.*licensed person/],
    ['hot solutions', { hazards: ['hot solution'] }, /scalds/],
    ['a remote site', { hazards: ['working alone'] }, /call in/],
    ['chemicals that must not meet', { chemicals: ['sodium bisulfite', 'hydrogen peroxide'] }, /sodium bisulfite and hydrogen peroxide together: violent heat/],
    ['work that names nothing', {}, /lock and tag/],
  ] as const)('speak of %s', (_, work, expected) => {
    expect(told(work)).toMatch(expected);
  });

  test('say nothing twice', () => {
    const all = cautionsFor({ kinds: TASK_KINDS, chemicals: ['NaOCl', 'bleach', 'citric acid', 'NaOH', 'bisulfite', 'H2O2'], hazards: HAZARDS });
    expect(new Set(all.map(({ text }) => text)).size).toBe(all.length);
  });
});
