import { Injectable } from '@nestjs/common';
import type { SignalCode } from '../../shared/signals.js';
import type { CycleFact } from '../core/cycle-fact.js';
import { closeOpenEnd, type OpenEnd, type SegmentSettings, segmentCycles } from '../core/segment.js';
import { SignalsRepository } from './signals.repository.js';
import type { SkidPlace } from './skids.repository.js';
import { StoredSamples } from './stored-samples.repository.js';
import { type Transaction, toJsonb } from './transactions.repository.js';

const DAY_MS = 86_400_000;
/** A week of minutes fits the memory easily. */
const PART_MS = 7 * DAY_MS;
/** Signals from which a cycle is made. */
const USED: readonly SignalCode[] = [
  'mode',
  'filtrate_flow',
  'filtrate_total',
  'feed_pressure',
  'filtrate_pressure',
  'concentrate_pressure',
  'tmp',
  'temperature',
  'cartridge_dp',
  'cartridge_inlet_pressure',
  'cartridge_outlet_pressure',
  'feed_turbidity',
  'backwash_count',
];

/** Cycles that were made from samples: they are thrown away and made again with their samples, and give way to reported ones. */
@Injectable()
export class DerivedCycles {
  constructor(
    private readonly signals: SignalsRepository,
    private readonly samples: StoredSamples,
  ) {}

  /** Makes the cycles of a stretch of time again, from before the cycle that its first sample may belong to up to the next one behind it. Answers what could not be resolved. */
  async remake(tx: Transaction, skid: SkidPlace, settings: SegmentSettings, loadNo: number, touched: { firstMs: number; lastMs: number }): Promise<string[]> {
    const stored = (await this.signals.ofSkid(tx, skid.id)).filter(({ code, positionId }) => positionId === null && USED.includes(code));
    const [fromMs, toMs] = await this.stretch(tx, skid.no, touched);
    const cycles: CycleFact[] = [];
    const notResolvable = new Set<string>();
    let openEnd: OpenEnd | null = null;
    for (let at: number | null = fromMs; at !== null && at < toMs; ) {
      const nextMs: number | null = await this.samples.nextMs(tx, stored, at);
      if (nextMs === null || nextMs >= toMs) break;
      const untilMs = Math.min(nextMs + PART_MS, toMs);
      const part = segmentCycles(await this.samples.read(tx, stored, nextMs, untilMs), settings, openEnd);
      cycles.push(...part.cycles);
      for (const gate of part.notResolvable) notResolvable.add(gate);
      openEnd = part.openEnd;
      at = untilMs;
    }
    const last = openEnd === null ? null : closeOpenEnd(openEnd, settings);
    await this.put(tx, skid.no, last === null ? cycles : [...cycles, last], loadNo, { fromMs, toMs });
    return [...notResolvable];
  }

  /** Reported cycles need none that were derived from samples of the same time. */
  async giveWay(tx: Transaction, skidNo: number, reported: readonly { startedAt: Date; endedAt: Date }[]): Promise<void> {
    if (reported.length === 0) return;
    await tx.query(
      `DELETE FROM cycle c USING jsonb_to_recordset($2::jsonb) AS r("startedAt" timestamptz, "endedAt" timestamptz)
        WHERE c.skid_no = $1 AND c.derived AND c.started_at < r."endedAt" AND c.ended_at > r."startedAt"`,
      [skidNo, toJsonb(reported.map(({ startedAt, endedAt }) => ({ startedAt, endedAt })))],
    );
  }

  /** Begins a whole derived cycle early, so that the state before the first sample is known. */
  private async stretch(tx: Transaction, skidNo: number, { firstMs, lastMs }: { firstMs: number; lastMs: number }): Promise<[number, number]> {
    const { rows } = await tx.query<{ before: Date | null; after: Date | null }>(
      `SELECT (SELECT min(started_at) FROM (SELECT started_at FROM cycle WHERE skid_no = $1 AND derived AND started_at <= $2 ORDER BY started_at DESC LIMIT 2) b) AS before,
              (SELECT min(started_at) FROM cycle WHERE skid_no = $1 AND derived AND started_at > $3) AS after`,
      [skidNo, new Date(firstMs), new Date(lastMs)],
    );
    return [Math.min(firstMs, rows[0]?.before?.getTime() ?? firstMs), rows[0]?.after?.getTime() ?? Number.MAX_SAFE_INTEGER / 1000];
  }

  private async put(
    tx: Transaction,
    skidNo: number,
    cycles: readonly CycleFact[],
    loadNo: number,
    { fromMs, toMs }: { fromMs: number; toMs: number },
  ): Promise<void> {
    const until = new Date(Math.min(toMs, 8.64e15));
    await tx.query('DELETE FROM cycle WHERE skid_no = $1 AND derived AND started_at >= $2 AND started_at < $3', [skidNo, new Date(fromMs), until]);
    await tx.query(
      `INSERT INTO cycle (skid_no, started_at, ended_at, filtration_minutes, filtrate_m3, flow_m3h, feed_kpa, filtrate_kpa, concentrate_kpa, tmp_kpa, tmp_start_kpa, tmp_end_kpa,
         temperature_c, cartridge_dp_kpa, feed_turbidity_ntu, quality, derived, load_no)
       SELECT $1, r."startedAt", r."endedAt", r."filtrationMinutes", r."filtrateM3", r."flowM3h", r."feedKpa", r."filtrateKpa", r."concentrateKpa", r."tmpKpa", r."tmpStartKpa",
         r."tmpEndKpa", r."temperatureC", r."cartridgeDpKpa", r."feedTurbidityNtu", r.quality, true, $2
       FROM jsonb_to_recordset($3::jsonb) AS r("startedAt" timestamptz, "endedAt" timestamptz, "filtrationMinutes" float8, "filtrateM3" float8, "flowM3h" float8, "feedKpa" float8,
         "filtrateKpa" float8, "concentrateKpa" float8, "tmpKpa" float8, "tmpStartKpa" float8, "tmpEndKpa" float8, "temperatureC" float8, "cartridgeDpKpa" float8,
         "feedTurbidityNtu" float8, quality smallint)
       WHERE NOT EXISTS (SELECT 1 FROM cycle c WHERE c.skid_no = $1 AND NOT c.derived AND c.started_at < r."endedAt" AND c.ended_at > r."startedAt")
       ON CONFLICT (skid_no, started_at) DO NOTHING`,
      [skidNo, loadNo, toJsonb(cycles)],
    );
  }
}
