import { Injectable } from '@nestjs/common';
import { Database } from '../app/index.js';

export interface TankRow {
  readonly id: string;
  readonly name: string;
  readonly chemical: string;
  readonly shape: 'vertical-cylinder' | 'horizontal-cylinder' | 'rectangular' | 'drum';
  readonly diameterM: number | null;
  readonly lengthM: number | null;
  readonly widthM: number | null;
  readonly heightM: number;
  readonly capacityL: number;
  readonly heelL: number;
  readonly strengthGL: number | null;
  readonly storageC: number | null;
  readonly doseMgL: number | null;
  readonly litresPerCeb: number | null;
  readonly litresPerCip: number | null;
}

/** What the skids of a tank filtered and cleaned on a day of the site. */
export interface UseDayRow {
  readonly day: string;
  readonly filtrateM3: number;
  readonly cebs: number;
  readonly cips: number;
}

export interface CoverToStore {
  readonly tankId: string;
  readonly kind: 'cover' | 'too-little-data';
  readonly lastDipAt: Date | null;
  readonly volumeL: number | null;
  readonly strengthGL: number | null;
  readonly dailyUseL: number | null;
  readonly earlyDays: number | null;
  readonly likelyDays: number | null;
  readonly lateDays: number | null;
  readonly runOutOn: string | null;
  readonly expectedUseL: number | null;
  readonly observedUseL: number | null;
  readonly reason: string;
  readonly dataUsed: readonly string[];
}

@Injectable()
export class CoverRepository {
  constructor(private readonly database: Database) {}

  async tanks(skidId: string): Promise<TankRow[]> {
    const { rows } = await this.database.pool.query<TankRow>(
      `SELECT id, name, chemical, shape, diameter_m AS "diameterM", length_m AS "lengthM", width_m AS "widthM", height_m AS "heightM", capacity_l AS "capacityL",
              heel_l AS "heelL", strength_g_l AS "strengthGL", storage_c AS "storageC", dose_mg_l AS "doseMgL", litres_per_ceb AS "litresPerCeb", litres_per_cip AS "litresPerCip"
         FROM tank WHERE skid_id = $1 AND ended_on IS NULL ORDER BY name`,
      [skidId],
    );
    return rows;
  }

  async timeZone(skidId: string): Promise<string | undefined> {
    const { rows } = await this.database.pool.query<{ timeZone: string }>(
      'SELECT site.time_zone AS "timeZone" FROM skid s JOIN site ON site.id = s.site_id WHERE s.id = $1',
      [skidId],
    );
    return rows[0]?.timeZone;
  }

  /** Filtrate and cleans by day since a day; a tank of shared equipment serves the skids of that equipment. */
  async useDays(skidId: string, timeZone: string, chemical: string, since: string): Promise<UseDayRow[]> {
    const { rows } = await this.database.pool.query<UseDayRow>(
      `WITH served AS (SELECT id, no FROM skid WHERE id = $1 UNION SELECT s.id, s.no FROM shared_service x JOIN skid s ON s.id = x.skid_id WHERE x.shared_id = $1),
        filtered AS (SELECT d.day, sum(d.filtrate_m3) AS m3 FROM daily_condition d JOIN served ON served.no = d.skid_no WHERE d.day >= $4::date GROUP BY d.day),
        cleaned AS (SELECT (c.at AT TIME ZONE $2)::date AS day, count(*) FILTER (WHERE c.kind = 'CEB')::int AS cebs, count(*) FILTER (WHERE c.kind = 'CIP')::int AS cips
                      FROM clean c JOIN served ON served.id = c.skid_id WHERE c.at >= $4::date AND lower(c.chemical) = lower($3) GROUP BY 1)
       SELECT to_char(day, 'YYYY-MM-DD') AS day, coalesce(m3, 0) AS "filtrateM3", coalesce(cebs, 0) AS cebs, coalesce(cips, 0) AS cips
         FROM filtered FULL JOIN cleaned USING (day) ORDER BY day`,
      [skidId, timeZone, chemical, since],
    );
    return rows;
  }

  async store(clientId: string, covers: readonly CoverToStore[], now: Date): Promise<void> {
    const tankIds = covers.map(({ tankId }) => tankId);
    await this.database.prisma.$transaction([
      this.database.prisma.tankCover.deleteMany({ where: { tankId: { in: tankIds } } }),
      this.database.prisma.tankCover.createMany({
        data: covers.map(({ runOutOn, dataUsed, ...cover }) => ({
          ...cover,
          clientId,
          computedAt: now,
          dataUsed: [...dataUsed],
          runOutOn: runOutOn === null ? null : new Date(`${runOutOn}T00:00:00Z`),
        })),
      }),
    ]);
  }
}
