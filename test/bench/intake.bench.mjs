/** A file of samples over HTTP, from the first byte to committed, deduplicated, gated and made into cycles, against a bare COPY of the same values into the same table. */
import { Readable } from 'node:stream';
import { pipeline } from 'node:stream/promises';
import pg from 'pg';
import { from as copyFrom } from 'pg-copy-streams';
import { medianOfThree } from './callers.mjs';

export const name = 'intake';
const ROWS = 200_000;
const SIGNALS = ['feed_pressure', 'filtrate_pressure', 'filtrate_flow', 'temperature', 'feed_turbidity'];

/** Minutes of half-hour cycles, with a little noise that is the same in every run. */
function valuesOf(row) {
  const noise = ((row * 7919) % 1000) / 1000;
  const flow = row % 33 < 30 ? 36 : 0;
  return [150 + (row % 33) * 0.2 + noise, 100 + noise, flow, 12 + noise, 1.5 + noise];
}

const momentOf = (start, row) => new Date(start + row * 60_000).toISOString();

export async function run({ baseUrl, databaseUrl, cookie }, print) {
  const fleet = await fetch(`${baseUrl}/api/fleet?limit=50`, { headers: { cookie } }).then((answer) => answer.json());
  const skid = fleet.items.find(({ kind }) => kind === 'skid');
  const client = new pg.Client({ connectionString: databaseUrl });
  await client.connect();
  let attempt = 0;
  const once = async () => {
    const start = Date.UTC(2000 + attempt, 0, 1);
    attempt += 1;
    const lines = Array.from({ length: ROWS }, (_, row) => `${momentOf(start, row)},${valuesOf(row).join(',')}`);
    const body = new FormData();
    body.set('file', new Blob([`at,${SIGNALS.join(',')}\n${lines.join('\n')}\n`]), 'log.csv');
    const uploadedAt = performance.now();
    const answer = await fetch(`${baseUrl}/api/skids/${skid.skidId}/loads?kind=samples`, { method: 'POST', body, headers: { cookie, origin: baseUrl } });
    const report = await answer.json();
    const uploadSeconds = (performance.now() - uploadedAt) / 1000;
    if (report.kept !== ROWS * SIGNALS.length) throw new Error(`not all was kept: ${JSON.stringify(report).slice(0, 400)}`);
    const copySeconds = await bareCopy(client, start);
    return { uploadSeconds, copySeconds, ratio: copySeconds / uploadSeconds };
  };
  const { uploadSeconds, copySeconds, ratio } = await medianOfThree(once, (figures) => figures.ratio);
  await client.end();
  const values = ROWS * SIGNALS.length;
  print({
    bench: 'intake',
    rows: ROWS,
    values,
    valuesPerSecond: Math.round(values / uploadSeconds),
    copyValuesPerSecond: Math.round(values / copySeconds),
    ratioToCopy: Number(ratio.toFixed(2)),
  });
}

/** Signals of their own, so that no row is there yet. */
async function bareCopy(client, start) {
  function* rows() {
    for (let row = 0; row < ROWS; row += 1000) {
      let chunk = '';
      for (let each = row; each < row + 1000; each += 1) {
        const values = valuesOf(each);
        for (const [signal, value] of values.entries()) chunk += `${-1 - signal}\t${momentOf(start, each)}\t${value}\t0\t1\n`;
      }
      yield chunk;
    }
  }
  const chunks = [...rows()];
  const startedAt = performance.now();
  await client.query('BEGIN');
  await pipeline(Readable.from(chunks), client.query(copyFrom('COPY sample (signal_id, at, value, quality, load_no) FROM STDIN')));
  await client.query('COMMIT');
  return (performance.now() - startedAt) / 1000;
}
