import { Injectable } from '@nestjs/common';
import { type Caller, Database, likeOf } from '../app/index.js';
import { TANK_SHORT_ON_SQL } from './short-on-sql.js';

export interface CoverFilter {
  readonly tankId: string | undefined;
  readonly skidId: string | undefined;
  readonly clientId: string | undefined;
  readonly siteId: string | undefined;
  readonly suppliedBy: string | undefined;
  readonly find: string | undefined;
  readonly limit: number;
  readonly offset: number;
  readonly now: Date;
}

export interface CoverRow {
  readonly tankId: string;
  readonly tankName: string;
  readonly chemical: string;
  readonly skidId: string;
  readonly skidName: string;
  readonly siteId: string;
  readonly siteName: string;
  readonly clientName: string;
  readonly timeZone: string;
  readonly today: string;
  readonly capacityL: number;
  readonly heelL: number;
  readonly lastDipAt: Date | null;
  readonly volumeL: number | null;
  readonly strengthGL: number | null;
  readonly dailyUseL: number | null;
  readonly earlyDays: number | null;
  readonly likelyDays: number | null;
  readonly lateDays: number | null;
  readonly runOutOn: string | null;
  /** The day from which it may run short */
  readonly shortOn: string | null;
  /** Other chemicals at the same skid */
  readonly keptWithIt: string[];
  readonly expectedUseL: number | null;
  readonly observedUseL: number | null;
  readonly reason: string | null;
  readonly suppliedBy: string;
  readonly fedFrom: string | null;
  readonly fedFromId: string | null;
  readonly shape: string;
  readonly heightM: number;
  readonly usualGL: number | null;
  readonly storageC: number | null;
  readonly expiresOn: string | null;
  readonly balanceState: string | null;
  readonly balanceWords: string | null;
  readonly driftLDay: number | null;
  readonly awaited: AwaitedRow | null;
  readonly total: number;
}

/** As JSON gives it. */
export interface AwaitedRow {
  readonly id: string;
  readonly tankId: string;
  readonly volumeL: number;
  readonly expectedOn: string;
  readonly note: string;
  readonly announcedAt: string;
  readonly announcedBy: string;
  readonly state: string;
  readonly version: number;
}

export interface DeliveredRow {
  readonly at: Date;
  readonly volumeL: number;
  readonly strengthGL: number | null;
  readonly product: string | null;
  readonly lot: string | null;
  readonly expiresOn: string | null;
  readonly by: string;
}

const AWAITED = `(SELECT jsonb_build_object('id', a.id, 'tankId', a.tank_id, 'volumeL', a.volume_l, 'expectedOn', a.expected_on, 'note', a.note, 'announcedAt', a.announced_at,
  'announcedBy', a.announced_by, 'state', a.state, 'version', a.version) FROM client_delivery a WHERE a.tank_id = t.id AND a.state = 'awaited')`;
const MOST_DELIVERIES = 50;

@Injectable()
export class ChemicalsRepository {
  constructor(private readonly database: Database) {}

  /** Tanks with their cover, the first to run out first: one query. */
  page(caller: Caller, filter: CoverFilter): Promise<CoverRow[]> {
    const like = likeOf(filter.find);
    return this.database.readFor(caller, (reader) =>
      reader.$queryRawUnsafe<CoverRow[]>(
        `SELECT t.id AS "tankId", t.name AS "tankName", t.chemical, s.id AS "skidId", s.name AS "skidName", site.id AS "siteId", site.name AS "siteName", client.name AS "clientName",
                site.time_zone AS "timeZone", to_char(($1::timestamptz AT TIME ZONE site.time_zone)::date, 'YYYY-MM-DD') AS today, t.capacity_l AS "capacityL", t.heel_l AS "heelL",
                c.last_dip_at AS "lastDipAt", c.volume_l AS "volumeL", c.strength_g_l AS "strengthGL", c.daily_use_l AS "dailyUseL", c.early_days AS "earlyDays",
                c.likely_days AS "likelyDays", c.late_days AS "lateDays", to_char(c.run_out_on, 'YYYY-MM-DD') AS "runOutOn",
                to_char(${TANK_SHORT_ON_SQL}, 'YYYY-MM-DD') AS "shortOn",
                ARRAY(SELECT DISTINCT o.chemical FROM tank o WHERE o.skid_id = t.skid_id AND o.id <> t.id AND o.ended_on IS NULL) AS "keptWithIt", c.expected_use_l AS "expectedUseL",
                c.observed_use_l AS "observedUseL", c.reason, t.supplied_by AS "suppliedBy", feeder.name AS "fedFrom", t.fed_from_id AS "fedFromId", t.shape, t.height_m AS "heightM", t.strength_g_l AS "usualGL",
                t.storage_c AS "storageC", to_char(c.expires_on, 'YYYY-MM-DD') AS "expiresOn", c.balance_state AS "balanceState", c.balance_words AS "balanceWords",
                c.drift_l_day AS "driftLDay", ${AWAITED} AS awaited, (count(*) OVER ())::int AS total
           FROM tank t JOIN skid s ON s.id = t.skid_id JOIN site ON site.id = s.site_id JOIN client ON client.id = s.client_id LEFT JOIN tank_cover c ON c.tank_id = t.id LEFT JOIN tank feeder ON feeder.id = t.fed_from_id
          WHERE t.ended_on IS NULL AND s.ended_on IS NULL AND ($2::uuid IS NULL OR s.id = $2) AND ($3::uuid IS NULL OR s.client_id = $3) AND ($7::uuid IS NULL OR site.id = $7) AND ($8::text IS NULL OR t.supplied_by = $8) AND ($9::uuid IS NULL OR t.id = $9)
            AND ($4::text IS NULL OR concat_ws(' ', t.name, t.chemical, s.name, site.name, client.name) ILIKE $4)
          ORDER BY c.run_out_on NULLS LAST, site.name, s.name, t.name, t.id LIMIT $5::int OFFSET $6::int`,
        filter.now,
        filter.skidId ?? null,
        filter.clientId ?? null,
        like,
        filter.limit + 1,
        filter.offset,
        filter.siteId ?? null,
        filter.suppliedBy ?? null,
        filter.tankId ?? null,
      ),
    );
  }

  /** The latest deliveries of a tank; `undefined` where the caller does not see the tank. */
  deliveries(caller: Caller, tankId: string): Promise<DeliveredRow[] | undefined> {
    return this.database.readFor(caller, async (reader) => {
      if ((await reader.tank.count({ where: { id: tankId } })) === 0) return undefined;
      return reader.$queryRaw<DeliveredRow[]>`
        SELECT at, volume_l AS "volumeL", strength_g_l AS "strengthGL", product, lot, to_char(expires_on, 'YYYY-MM-DD') AS "expiresOn", "by"
          FROM tank_delivery WHERE tank_id = ${tankId}::uuid ORDER BY at DESC LIMIT ${MOST_DELIVERIES}`;
    });
  }
}
