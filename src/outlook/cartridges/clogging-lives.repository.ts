import { Injectable } from '@nestjs/common';
import { Database } from '../../app/index.js';
import { type KeptLife, MOST_LIVES, MOST_OF_PLACE } from '../core/skid/kept-life.js';

@Injectable()
export class CloggingLivesRepository {
  constructor(private readonly database: Database) {}

  /** Keeps the lives of a skid's sets that are out again, in the place of those that were kept; what stayed is not written. */
  async store(skidNo: number, lives: readonly KeptLife[]): Promise<void> {
    await this.database.pool.query(
      `WITH said AS (
         SELECT * FROM jsonb_to_recordset($2::jsonb) AS l("positionId" uuid, "partId" uuid, "itemId" uuid, place int, life float8, ended text, "endedOn" date, clock jsonb, level jsonb)),
       gone AS (DELETE FROM clogging_life k WHERE k.skid_no = $1 AND NOT EXISTS (SELECT 1 FROM said WHERE said."positionId" = k.position_id AND said."partId" = k.part_id))
       INSERT INTO clogging_life (position_id, part_id, skid_no, item_id, place, life, ended, ended_on, clock, level)
       SELECT * FROM (
         SELECT "positionId", "partId", $1::int, "itemId", place, life, ended, "endedOn", ARRAY(SELECT jsonb_array_elements_text(clock)::float8) AS clock,
                ARRAY(SELECT jsonb_array_elements_text(level)::float8) AS level FROM said) l
        WHERE NOT EXISTS (SELECT 1 FROM clogging_life k WHERE k.position_id = l."positionId" AND k.part_id = l."partId"
                AND (k.life, k.ended, k.ended_on, k.place, k.clock, k.level) IS NOT DISTINCT FROM (l.life, l.ended, l."endedOn", l.place, l.clock, l.level))
       ON CONFLICT (position_id, part_id) DO UPDATE SET item_id = excluded.item_id, place = excluded.place, life = excluded.life, ended = excluded.ended, ended_on = excluded.ended_on,
         clock = excluded.clock, level = excluded.level`,
      [skidNo, JSON.stringify(lives)],
    );
  }

  /** The latest lives with an item, a few of each place: those that ended at the limit first. */
  async ofItem(itemId: string): Promise<KeptLife[]> {
    const { rows } = await this.database.pool.query<KeptLife>(
      `SELECT position_id AS "positionId", part_id AS "partId", item_id AS "itemId", place, life, ended, to_char(ended_on, 'YYYY-MM-DD') AS "endedOn", clock, level
         FROM (SELECT *, row_number() OVER (PARTITION BY position_id ORDER BY ended_on DESC, part_id) AS nth FROM clogging_life WHERE item_id = $1) l
        WHERE nth <= ${MOST_OF_PLACE} ORDER BY (ended = 'limit') DESC, ended_on DESC, position_id, part_id LIMIT ${MOST_LIVES}`,
      [itemId],
    );
    return rows;
  }
}
