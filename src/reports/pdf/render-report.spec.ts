import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from '@jest/globals';
import { countOf, haveReaders, type ReadPdf, readPdf } from '../../../test/support/pdf.js';
import type { Block, ReportDocument } from '../core/document.js';
import { INKS } from './inks.js';
import { renderReport } from './render-report.js';

const reportOf = (...blocks: Block[]): ReportDocument => ({
  title: 'UF 1: 1 Jan 2026 to 30 Jun 2026',
  place: 'Alder · Alder works',
  running: 'UF 1 · Alder works',
  made: 'Made by Skidkeep, 25 Nov 2026, 09:00',
  madeAtMs: Date.UTC(2026, 10, 25, 9),
  blocks,
});
const drawn = async (...blocks: Block[]): Promise<ReadPdf> => readPdf(await renderReport(reportOf(...blocks)));
const table = (rows: number, cell = 'Grease the bearings'): Block => ({
  kind: 'table',
  caption: 'Work',
  columns: [{ name: 'Day' }, { name: 'Work' }, { name: 'Minutes', numeric: true }],
  rows: Array.from({ length: rows }, (_, at) => [`Day ${at + 1}`, cell, `${at}`]),
});

test('the inks are those of the pages in their light colours', () => {
  const css = readFileSync(join(import.meta.dirname, '../../web/styles/tokens.css'), 'utf8');
  const light = (name: string) => new RegExp(`--${name}: light-dark\\((#\\w+),`).exec(css)?.[1];
  const { surface: _, inkSoft, ...same } = INKS;
  expect(Object.fromEntries(Object.keys(same).map((name) => [name, light(name)]))).toEqual(same);
  expect(light('ink-soft')).toBe(inkSoft);
});

test('odd characters, words longer than a line and texts longer than a page are drawn, none lost', async () => {
  const odd = await renderReport(
    reportOf(
      { kind: 'paragraph', text: `≥ 3 L/h, CO₂ → ‰ Δ\u0007\ud800 ${'x'.repeat(400)}` },
      table(1, Array.from({ length: 200 }, (_, at) => `line ${at}`).join('\n')),
      table(0),
    ),
  );
  expect(odd.subarray(0, 8).toString()).toBe('%PDF-1.7');
});

(haveReaders() ? describe : describe.skip)('a report that is read back', () => {
  test('says its title and language, is tagged, and has one first heading', async () => {
    const read = await drawn({ kind: 'heading', level: 2, text: 'Condition' }, { kind: 'heading', level: 3, text: 'Permeability' });
    expect(read.info).toMatch(/Title: +UF 1: 1 Jan 2026 to 30 Jun 2026/);
    expect(read.info).toMatch(/Tagged: +yes/);
    expect(['H1', 'H2', 'H3'].map((kind) => countOf(read, kind))).toEqual([1, 1, 1]);
    expect(read.text).toMatch(/Alder · Alder works UF 1: 1 Jan 2026 to 30 Jun 2026 Condition Permeability .*Page 1 of 1/);
  });

  test('repeats the head of a table on every page, but says it once to those who hear it', async () => {
    const read = await drawn(table(120));
    const pages = Number(/Pages: +(\d+)/.exec(read.info)?.[1]);
    expect(pages).toBeGreaterThan(2);
    expect(read.text.match(/Day Work Minutes/g)).toHaveLength(pages);
    expect([countOf(read, 'Table'), countOf(read, 'TH'), countOf(read, 'TR'), countOf(read, 'TD')]).toEqual([1, 3, 121, 360]);
    expect(read.text).toContain(`Page ${pages} of ${pages}`);
    expect(read.structure).not.toContain(`of ${pages}`); // page numbers are no part of the matter
  });

  test('goes on with a row that no page can hold, and loses no line of it', async () => {
    const lines = Array.from({ length: 150 }, (_, at) => `line ${at}.`);
    const read = await drawn(table(1, lines.join('\n')));
    expect(lines.filter((line) => !read.text.includes(line))).toEqual([]);
    expect(countOf(read, 'TR')).toBe(2);
  });

  test('says in words what a drawing shows', async () => {
    const trend = {
      firstDayMs: 0,
      values: [1, 2, null, 4],
      forecast: [],
      limit: 3,
      baseline: null,
      crossing: null,
      events: [{ atMs: 0, label: 'Recovery clean' }],
    };
    const read = await drawn({
      kind: 'trend',
      title: 'Permeability',
      unit: 'L/m²·h·bar',
      sentence: 'It rises.',
      trend,
      span: { fromMs: 0, toMs: 4 * 86_400_000 },
      limitLabel: 'Cleaning limit 3',
      baselineLabel: 'Baseline –',
    });
    expect(countOf(read, 'Figure')).toBe(1);
    expect(read.text).toMatch(/It rises\. .*Cleaning limit 3.* 1 1 Jan 1970: Recovery clean/);
  });

  test('names every standing by its word', async () => {
    const read = await drawn({ kind: 'standing', standing: 'overdue', text: 'The seal is worn.' });
    expect(read.structure).toMatch(/P[^\n]*\n *"Overdue"\n *P[^\n]*\n *"The seal is worn\."/);
  });

  test('puts the parts of a report on pages of their own, one level deeper', async () => {
    const read = await drawn({ kind: 'part', place: 'Alder works', title: 'UF 2' }, { kind: 'heading', level: 2, text: 'Condition' });
    expect(read.info).toMatch(/Pages: +2/);
    expect(read.structure.indexOf('H2')).toBeLessThan(read.structure.indexOf('"UF 2"'));
    expect(read.structure).toMatch(/H3[^\n]*\n *"Condition"/);
  });

  test('tells of a photograph that cannot be read, and draws the others', async () => {
    const PNG = 'iVBORw0KGgoAAAANSUhEUgAAAAEAAAABCAYAAAAfFcSJAAAADUlEQVR42mNk+M9QDwADhgGAWjR9awAAAABJRU5ErkJggg==';
    const whole = Buffer.from(PNG, 'base64');
    const spoilt = Buffer.from(whole).fill(0xff, 43, 50);
    const photographs = [whole, whole.subarray(0, 50), spoilt, Buffer.from('no picture')].map((content, at) => ({
      name: `p${at}.png`,
      caption: 'Seal',
      content,
    }));
    const read = await drawn({ kind: 'photographs', photographs });
    expect(countOf(read, 'Figure')).toBe(1);
    expect(read.text.match(/This photograph could not be read/g)).toHaveLength(3);
    expect(read.text).toMatch(/p0\.png: Seal/);
  });
});
