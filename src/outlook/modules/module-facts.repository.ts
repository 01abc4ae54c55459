import { Injectable } from '@nestjs/common';
import { Database } from '../../app/index.js';

/** A module, or a set that is fitted together, where it serves. */
export interface FittedModuleRow {
  readonly id: string;
  readonly partId: string;
  readonly fittedAt: Date;
  readonly modules: number;
  /** Filtration cycles of the skid since then; null: its record begins later */
  readonly cycles: number | null;
}

export interface ClosedRow {
  readonly positionId: string;
  readonly partId: string | null;
  readonly at: Date;
  readonly fibres: number;
  readonly areaLostM2: number | null;
}

export interface CleanOfModulesRow {
  readonly at: Date;
  readonly chemical: string;
  readonly mgL: number | null;
  readonly minutes: number | null;
}

export interface UnitOfModulesRow {
  readonly fibresPerModule: number | null;
  readonly oxidantLimitPpmH: number | null;
  /** Since when the skid has a record */
  readonly recordFrom: Date | null;
  readonly testedAt: Date | null;
  readonly decayKpaMin: number | null;
  readonly controlLimitKpaMin: number | null;
  readonly outcome: string | null;
}

@Injectable()
export class ModuleFactsRepository {
  constructor(private readonly database: Database) {}

  /** Modules are fitted many on one day: the cycles since a day are summed once. */
  async fitted(skid: { readonly id: string; readonly no: number }, timeZone: string): Promise<FittedModuleRow[]> {
    const { rows } = await this.database.pool.query<FittedModuleRow>(
      `WITH fitted AS (
         SELECT p.id, f.part_id, f.fitted_at, (f.fitted_at AT TIME ZONE $3)::date AS day, pt.set_count
           FROM position p JOIN fitting f ON f.position_id = p.id AND f.removed_at IS NULL JOIN part pt ON pt.id = f.part_id
          WHERE p.skid_id = $1 AND p.kind = 'module' AND p.ended_on IS NULL),
       run AS (
         SELECT days.day, (SELECT sum(d.cycles) FROM daily_condition d WHERE d.skid_no = $2 AND d.day >= days.day)::float8 AS cycles
           FROM (SELECT DISTINCT day FROM fitted) days WHERE days.day >= (SELECT min(d.day) FROM daily_condition d WHERE d.skid_no = $2))
       SELECT f.id, f.part_id AS "partId", f.fitted_at AS "fittedAt", f.set_count AS modules, run.cycles FROM fitted f LEFT JOIN run ON run.day = f.day`,
      [skid.id, skid.no, timeZone],
    );
    return rows;
  }

  /** Fibres that were closed at the skid, and elsewhere in modules that are fitted there now. */
  async closed(skidId: string, partIds: readonly string[]): Promise<ClosedRow[]> {
    const { rows } = await this.database.pool.query<ClosedRow>(
      `SELECT position_id AS "positionId", part_id AS "partId", at, fibres, area_lost_m2 AS "areaLostM2" FROM fibre_repair WHERE skid_id = $1 OR part_id = ANY($2) ORDER BY at`,
      [skidId, partIds],
    );
    return rows;
  }

  async cleans(skidId: string): Promise<CleanOfModulesRow[]> {
    const { rows } = await this.database.pool.query<CleanOfModulesRow>(
      'SELECT at, chemical, strength_mg_l AS "mgL", contact_minutes AS minutes FROM clean WHERE skid_id = $1 ORDER BY at',
      [skidId],
    );
    return rows;
  }

  /** What the integrity setup says of modules, and the last test that counts. */
  async unit(skid: { readonly id: string; readonly no: number }): Promise<UnitOfModulesRow | undefined> {
    const { rows } = await this.database.pool.query<UnitOfModulesRow>(
      `SELECT i.fibres_per_module AS "fibresPerModule", i.oxidant_limit_ppm_h AS "oxidantLimitPpmH",
              (SELECT min(day)::timestamptz FROM daily_condition WHERE skid_no = $2) AS "recordFrom",
              t.at AS "testedAt", t.decay_kpa_min AS "decayKpaMin", t.control_limit_kpa_min AS "controlLimitKpaMin", t.outcome
         FROM skid s LEFT JOIN integrity_setup i ON i.skid_id = s.id
         LEFT JOIN LATERAL (SELECT * FROM integrity_test WHERE skid_id = s.id AND outcome <> 'not counted' ORDER BY at DESC LIMIT 1) t ON true
        WHERE s.id = $1`,
      [skid.id, skid.no],
    );
    return rows[0];
  }
}
