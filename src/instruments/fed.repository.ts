import { Injectable } from '@nestjs/common';
import { type Caller, Database } from '../app/index.js';
import type { Figure } from './core/figures-fed.js';

/** Columns of a day of condition that hold a figure. */
const COLUMNS: Record<Figure, string> = {
  permeability: 'permeability',
  'transmembrane pressure': 'tmp_kpa',
  flux: 'flux_lmh',
  filtrate: 'filtrate_m3',
  'cartridge pressure drop': 'cartridge_dp_kpa',
  temperature: 'temperature_c',
  'feed turbidity': 'feed_turbidity_ntu',
};

/** Limits of outlooks, and limits of rules on a figure of a day, that rest on a figure. */
const OUTLOOKS: Partial<Record<Figure, readonly string[]>> = {
  permeability: ['permeability'],
  'cartridge pressure drop': ['cartridge dP'],
  filtrate: ['permeability', 'cartridge dP'],
};
const RULES: Partial<Record<Figure, readonly string[]>> = {
  permeability: ['permeability share', 'permeability share of new'],
  'transmembrane pressure': ['TMP'],
  'cartridge pressure drop': ['cartridge dP'],
  'feed turbidity': ['feed turbidity'],
};
const MOST_OUTLOOKS = 200;

/** A time of doubt at a skid. Days are those of the site; unset: since the record began, or until today. */
export interface DoubtAtSkid {
  readonly skidNo: number;
  readonly fromAt: Date | null;
  readonly toAt: Date | null;
  readonly fromDay: string | null;
  readonly toDay: string | null;
  readonly figures: readonly Figure[];
}

export interface FedRows {
  readonly days: { readonly first: string | null; readonly last: string | null; readonly counts: Readonly<Partial<Record<Figure, number>>> };
  readonly outlooks: readonly { id: string; subject: string; limitKind: string; originOn: string; reason: string }[];
  readonly dues: readonly { id: string; task: string; positionName: string | null; bestOn: string | null; reason: string }[];
}

/** What later stages drew from readings, read from their tables as the caller. */
@Injectable()
export class FedRepository {
  constructor(private readonly database: Database) {}

  read(caller: Caller, doubt: DoubtAtSkid): Promise<FedRows> {
    const { skidNo, fromAt, toAt, fromDay, toDay, figures } = doubt;
    const counts = figures.map((figure) => `'${figure}', count(${COLUMNS[figure]})::int`).join(', ');
    const any = figures.map((figure) => `${COLUMNS[figure]} IS NOT NULL`).join(' OR ');
    return this.database.readFor(caller, async (reader) => {
      const [days] = await reader.$queryRawUnsafe<FedRows['days'][]>(
        `SELECT to_char(min(day), 'YYYY-MM-DD') AS first, to_char(max(day), 'YYYY-MM-DD') AS last, jsonb_build_object(${counts}) AS counts
           FROM daily_condition WHERE skid_no = $1::int AND day >= coalesce($2::date, '-infinity') AND day <= coalesce($3::date, 'infinity') AND (${any || 'false'})`,
        skidNo,
        fromDay,
        toDay,
      );
      const limitKinds = [...new Set(figures.flatMap((figure) => OUTLOOKS[figure] ?? []))];
      // A forecast made later rests on such days too, unless its run began after them: with a recovery clean, or a new set of cartridges.
      const outlooks = await reader.$queryRawUnsafe<{ id: string; subject: string; limitKind: string; originOn: string; reason: string }[]>(
        `SELECT o.id::text, coalesce(p.name, o.subject) AS subject, o.limit_kind AS "limitKind", to_char(o.origin_day, 'YYYY-MM-DD') AS "originOn", o.reason
           FROM outlook o LEFT JOIN position p ON p.id::text = o.subject JOIN skid s ON s.no = o.skid_no
          WHERE o.skid_no = $1::int AND o.limit_kind = ANY($4::text[]) AND o.origin_at >= coalesce($2::timestamptz, '-infinity')
            AND (o.origin_at <= coalesce($3::timestamptz, 'infinity') OR NOT CASE WHEN o.subject = 'membranes'
              THEN EXISTS (SELECT 1 FROM clean c WHERE c.skid_id = s.id AND c.kind = 'CIP' AND c.at > $3::timestamptz AND c.at <= o.origin_at)
              ELSE EXISTS (SELECT 1 FROM fitting f WHERE f.position_id::text = o.subject AND f.fitted_at > $3::timestamptz AND f.fitted_at <= o.origin_at) END)
          ORDER BY o.origin_day DESC, o.id DESC LIMIT ${MOST_OUTLOOKS}`,
        skidNo,
        fromAt,
        toAt,
        limitKinds,
      );
      const dues = await reader.$queryRawUnsafe<{ id: string; task: string; positionName: string | null; bestOn: string | null; reason: string }[]>(
        `SELECT d.id, d.task, p.name AS "positionName", to_char(d.best_on, 'YYYY-MM-DD') AS "bestOn", d.reason
           FROM due d LEFT JOIN position p ON p.id = d.position_id
          WHERE d.skid_no = $1::int AND (d.outlook_id = ANY($2::bigint[])
            OR (d."limit" = ANY($3::text[]) AND d.best_on BETWEEN coalesce($4::date, '-infinity') AND coalesce($5::date, 'infinity')))
          ORDER BY d.best_on NULLS LAST, d.task, d.id`,
        skidNo,
        outlooks.map(({ id }) => BigInt(id)),
        figures.flatMap((figure) => RULES[figure] ?? []),
        fromDay,
        toDay,
      );
      return { days: days ?? { first: null, last: null, counts: {} }, outlooks, dues };
    });
  }
}
