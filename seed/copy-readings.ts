import { Readable } from 'node:stream';
import { pipeline } from 'node:stream/promises';
import type pg from 'pg';
import { from as copyFrom } from 'pg-copy-streams';
import type { Database } from '../src/app/index.js';
import { isSignalCode } from '../src/shared/signals.js';
import { newLoad } from './insert-facts.js';
import { idOf, type ScenarioIds, type SkidIds } from './insert-registry.js';
import type { Scenario } from './types.js';

const CHUNK_CHARACTERS = 64 * 1024;

/** Cycles and samples by COPY: hundreds of thousands of rows, made while they are sent. */
export async function copyReadings({ pool, prisma }: Database, scenario: Scenario, ids: ScenarioIds): Promise<{ cycles: number; samples: number }> {
  const client = await pool.connect();
  try {
    let cycles = 0;
    let samples = 0;
    for (const key of scenario.skidsWithCycles)
      cycles += await copyCycles(client, scenario, key, idOf(ids.skids, key), await newLoad(prisma, idOf(ids.skids, key), 'cycles', 'Demo record of cycles'));
    for (const key of scenario.skidsWithSamples)
      samples += await copySamples(
        client,
        scenario,
        key,
        idOf(ids.skids, key),
        await newLoad(prisma, idOf(ids.skids, key), 'samples', 'Demo record of samples'),
      );
    await client.query('ANALYZE cycle');
    return { cycles, samples };
  } finally {
    client.release();
  }
}

async function copyCycles(client: pg.PoolClient, scenario: Scenario, key: string, skid: SkidIds, loadNo: number): Promise<number> {
  function* lines(): Generator<string> {
    for (const c of scenario.cyclesOf(key)) {
      yield line([
        skid.no,
        c.startedAt.toISOString(),
        c.endedAt.toISOString(),
        c.filtrationMinutes,
        c.filtrateM3,
        c.flowM3h,
        c.feedKpa,
        c.filtrateKpa,
        c.concentrateKpa,
        c.tmpKpa,
        c.tmpStartKpa,
        c.tmpEndKpa,
        c.temperatureC,
        c.cartridgeDpKpa,
        c.feedTurbidityNtu,
        c.quality,
        loadNo,
      ]);
    }
  }
  return copy(
    client,
    `cycle (skid_no, started_at, ended_at, filtration_minutes, filtrate_m3, flow_m3h, feed_kpa, filtrate_kpa, concentrate_kpa, tmp_kpa, tmp_start_kpa, tmp_end_kpa,
       temperature_c, cartridge_dp_kpa, feed_turbidity_ntu, quality, load_no)`,
    lines(),
    loadNo,
  );
}

async function copySamples(client: pg.PoolClient, scenario: Scenario, key: string, skid: SkidIds, loadNo: number): Promise<number> {
  const months = new Set([scenario.samplesFrom, scenario.until].map((moment) => moment.toISOString()));
  for (const month of months) await client.query('SELECT ensure_sample_month($1)', [month]);
  const signalIds = new Map<string, number>();
  for (const { values } of scenario.samplesOf(key)) {
    for (const code of Object.keys(values)) {
      if (signalIds.has(code) || !isSignalCode(code)) continue;
      const { rows } = await client.query<{ id: number }>('INSERT INTO signal (skid_id, code) VALUES ($1, $2) RETURNING id', [skid.id, code]);
      signalIds.set(code, rows[0]?.id ?? 0);
    }
    break;
  }
  function* lines(): Generator<string> {
    for (const { at, values } of scenario.samplesOf(key)) {
      for (const [code, value] of Object.entries(values)) {
        const signal = signalIds.get(code);
        if (signal !== undefined) yield line([signal, at.toISOString(), value, 0, loadNo]);
      }
    }
  }
  return copy(client, 'sample (signal_id, at, value, quality, load_no)', lines(), loadNo);
}

/** One message to the server for each row would take longer than the rows. */
async function copy(client: pg.PoolClient, target: string, lines: Generator<string>, loadNo: number): Promise<number> {
  let count = 0;
  function* chunks(): Generator<string> {
    let chunk = '';
    for (const row of lines) {
      count += 1;
      chunk += row;
      if (chunk.length < CHUNK_CHARACTERS) continue;
      yield chunk;
      chunk = '';
    }
    yield chunk;
  }
  await pipeline(Readable.from(chunks()), client.query(copyFrom(`COPY ${target} FROM STDIN`)));
  await client.query('UPDATE load SET kept = $2 WHERE no = $1', [loadNo, count]);
  return count;
}

function line(values: readonly (string | number | null)[]): string {
  return `${values.map((value) => value ?? '\\N').join('\t')}\n`;
}
