import { Injectable } from '@nestjs/common';
import { type Caller, Database } from '../app/index.js';
import type { Baselines } from '../condition/core/baseline.js';
import type { PressureBasis } from '../instruments/core/figures-fed.js';
import type { DoubtOfSignal } from './core/doubts-of-outlook.js';

export interface TrendDayRow {
  readonly day: string;
  readonly permeability: number | null;
  readonly cartridgeDpKpa: number | null;
  readonly leftOut: Record<string, number>;
  readonly byHand: boolean;
}

export interface TrendSkidRow extends PressureBasis {
  readonly skidNo: number;
  readonly referenceC: number;
  readonly permeabilityLimitFraction: number;
  readonly cartridgeLimitKpa: number | null;
  readonly cartridgeReferenceFlowM3h: number | null;
  readonly baselines: Baselines | null;
  readonly serviceState: string;
  /** Local date of the change to this state; null: not known */
  readonly stateSince: string | null;
  readonly timeZone: string;
}

export interface TrendEventRow {
  readonly at: Date;
  readonly label: string;
}

export interface OutlookRow {
  readonly kind: 'outlook' | 'limit-met' | 'too-little-data';
  readonly originAt: Date;
  readonly originDay: string;
  readonly computedAt: Date;
  readonly model: string;
  readonly modelVersion: string;
  readonly p10Days: number | null;
  readonly p50Days: number | null;
  readonly p90Days: number | null;
  readonly shareBeyond: number | null;
  readonly reason: string;
  readonly dataUsed: string[];
  readonly path: { dayAhead: number; low: number; mid: number; high: number }[];
}

export interface TrendRows {
  readonly skid: TrendSkidRow;
  readonly days: TrendDayRow[];
  readonly events: TrendEventRow[];
  readonly outlook: OutlookRow | undefined;
  /** Readings by hand, and those that say how long ago the backwash was */
  readonly hand: { readonly readings: number; readonly withMinutes: number };
  readonly doubts: DoubtOfSignal[];
}

/** What marks a drawing: chemical cleans that recover permeability; changes of the cartridge set. */
const EVENTS = {
  permeability: `SELECT at, 'Recovery clean (CIP), ' || chemical AS label FROM clean WHERE skid_id = $1::uuid AND kind = 'CIP' ORDER BY at`,
  'cartridge dP': `SELECT f.fitted_at AS at, 'Cartridges changed' AS label FROM fitting f JOIN position p ON p.id = f.position_id
                    WHERE p.skid_id = $1::uuid AND p.kind = 'pre-filter' ORDER BY f.fitted_at`,
};
export type LimitKind = keyof typeof EVENTS;

@Injectable()
export class TrendRepository {
  constructor(private readonly database: Database) {}

  /** Everything that one drawing needs: six queries. */
  read(caller: Caller, skidId: string, limitKind: LimitKind): Promise<TrendRows | undefined> {
    return this.database.readFor(caller, async (reader) => {
      const [skid] = await reader.$queryRaw<TrendSkidRow[]>`
        SELECT s.no AS "skidNo", s.reference_c AS "referenceC", s.permeability_limit_fraction AS "permeabilityLimitFraction", s.cartridge_limit_kpa AS "cartridgeLimitKpa",
               s.cartridge_reference_flow_m3h AS "cartridgeReferenceFlowM3h", k.baselines, s.flow_scheme AS scheme, s.tmp_from AS "tmpFrom", s.service_state AS "serviceState",
               site.time_zone AS "timeZone", (SELECT to_char(max(c.at) AT TIME ZONE site.time_zone, 'YYYY-MM-DD') FROM service_state_change c WHERE c.skid_id = s.id) AS "stateSince"
          FROM skid s JOIN site ON site.id = s.site_id LEFT JOIN skid_condition k ON k.skid_no = s.no WHERE s.id = ${skidId}::uuid`;
      if (skid === undefined) return undefined;
      const days = await reader.$queryRaw<TrendDayRow[]>`
        SELECT to_char(day, 'YYYY-MM-DD') AS day, permeability, cartridge_dp_kpa AS "cartridgeDpKpa", CASE WHEN ${limitKind === 'permeability'} THEN left_out ELSE cartridge_left_out END AS "leftOut", by_hand AS "byHand"
          FROM daily_condition WHERE skid_no = ${skid.skidNo} ORDER BY day`;
      const events = await reader.$queryRawUnsafe<TrendEventRow[]>(EVENTS[limitKind], skidId);
      const [outlook] = await reader.$queryRaw<OutlookRow[]>`
        SELECT kind, origin_at AS "originAt", to_char(origin_day, 'YYYY-MM-DD') AS "originDay", computed_at AS "computedAt", model, model_version AS "modelVersion",
               p10_days AS "p10Days", p50_days AS "p50Days", p90_days AS "p90Days", share_beyond AS "shareBeyond", reason, data_used AS "dataUsed", path
          FROM outlook WHERE skid_no = ${skid.skidNo} AND limit_kind = ${limitKind} ORDER BY origin_day DESC, id DESC LIMIT 1`;
      const [hand = { readings: 0, withMinutes: 0 }] = await reader.$queryRaw<TrendRows['hand'][]>`
        SELECT count(*)::int AS readings, count(minutes_since_backwash)::int AS "withMinutes" FROM hand_reading WHERE skid_id = ${skidId}::uuid`;
      const doubts = await reader.$queryRaw<DoubtOfSignal[]>`
        SELECT signal, reason, to_char(from_at AT TIME ZONE ${skid.timeZone}, 'YYYY-MM-DD') AS "fromDay", to_char(to_at AT TIME ZONE ${skid.timeZone}, 'YYYY-MM-DD') AS "toDay"
          FROM doubtful_span WHERE skid_id = ${skidId}::uuid ORDER BY to_at, from_at, signal`;
      return { skid, days, events, outlook, hand, doubts };
    });
  }
}
