import { Injectable, type OnModuleInit } from '@nestjs/common';
import { Database } from '../app/index.js';
import { TankNeeds } from '../store/index.js';

/** What a tank that the department fills will ask for. */
export interface ChemicalNeed {
  readonly tankId: string;
  readonly tankName: string;
  readonly itemId: string;
  readonly siteId: string;
  /** Litres a day, with the scatter between days */
  readonly dailyUseL: number;
  readonly useSdL: number;
  /** Usable today, above the heel */
  readonly volumeL: number;
  readonly heelL: number;
  readonly capacityL: number;
  /** The day on which it is as likely as not to be empty; `null` beyond two years */
  readonly runOutOn: string | null;
}

/** Says what tanks ask for, so that it can be ordered with everything else: only those that we fill, that name their item, and that are no day tanks. */
@Injectable()
export class ChemicalNeeds implements OnModuleInit {
  constructor(
    private readonly database: Database,
    private readonly tanks: TankNeeds,
  ) {}

  onModuleInit(): void {
    this.tanks.askedOf(() => this.all());
  }

  /** Of all sites, or of one: one query. */
  async all(siteId: string | null = null): Promise<ChemicalNeed[]> {
    const { rows } = await this.database.pool.query<ChemicalNeed>(
      `SELECT t.id AS "tankId", t.name AS "tankName", t.item_id AS "itemId", s.site_id AS "siteId", c.daily_use_l AS "dailyUseL", coalesce(c.use_sd_l, 0) AS "useSdL", c.volume_l AS "volumeL",
              t.heel_l AS "heelL", t.capacity_l AS "capacityL", to_char(c.run_out_on, 'YYYY-MM-DD') AS "runOutOn"
         FROM tank t JOIN skid s ON s.id = t.skid_id JOIN tank_cover c ON c.tank_id = t.id
        WHERE t.ended_on IS NULL AND s.ended_on IS NULL AND t.supplied_by = 'us' AND t.item_id IS NOT NULL AND t.fed_from_id IS NULL AND c.kind = 'cover'
          AND ($1::uuid IS NULL OR s.site_id = $1) ORDER BY s.site_id, t.id`,
      [siteId],
    );
    return rows;
  }
}
