import { Injectable } from '@nestjs/common';
import { type Caller, Database } from '../../app/index.js';
import type { SkidMachines } from '../core/skid-machines.js';
import type { TmpBasis } from '../core/tmp.js';
import type { Statements } from './transactions.repository.js';

export interface SkidPlace {
  readonly id: string;
  readonly no: number;
  readonly clientId: string;
  readonly siteId: string;
  readonly name: string;
  readonly siteName: string;
  readonly timeZone: string;
  readonly ratedFlowM3h: number | null;
  readonly tmp: TmpBasis;
}

/** Skids and what stands on them, as far as readings refer to it. */
@Injectable()
export class SkidsRepository {
  constructor(private readonly database: Database) {}

  async find(caller: Caller, id: string): Promise<SkidPlace | null> {
    const skid = await this.database.readFor(caller, (reader) => reader.skid.findUnique({ where: { id }, include: { site: true } }));
    if (skid === null) return null;
    const { no, clientId, siteId, name, site, ratedFlowM3h, flowScheme, tmpFrom, feedHeightM, filtrateHeightM, concentrateHeightM } = skid;
    const scheme = (flowScheme ?? 'dead-end') as TmpBasis['scheme'];
    const tmp = { scheme, tmpFrom: (tmpFrom ?? 'pressures') as TmpBasis['tmpFrom'], feedHeightM, filtrateHeightM, concentrateHeightM };
    return { id, no, clientId, siteId, name, siteName: site.name, timeZone: site.timeZone, ratedFlowM3h, tmp };
  }

  async skidOfTank(caller: Caller, tankId: string): Promise<string | null> {
    const tank = await this.database.readFor(caller, (reader) => reader.tank.findUnique({ where: { id: tankId }, select: { skidId: true } }));
    return tank?.skidId ?? null;
  }

  async skidOfMeter(caller: Caller, meterId: string): Promise<string | null> {
    const meter = await this.database.readFor(caller, (reader) =>
      reader.meter.findUnique({ where: { id: meterId }, select: { position: { select: { skidId: true } } } }),
    );
    return meter?.position.skidId ?? null;
  }

  /** Positions, meters and tanks, ended ones too: a back-log may speak of them. One statement, inside the transaction that asks where one is open. */
  async machinesOf(skidId: string, sql: Statements = this.database.pool): Promise<SkidMachines> {
    const { rows } = await sql.query<SkidMachines>(
      `SELECT (SELECT coalesce(jsonb_agg(jsonb_build_object('id', id, 'name', name, 'kind', kind, 'ended', ended_on IS NOT NULL) ORDER BY name), '[]')
                 FROM position WHERE skid_id = $1::uuid) AS positions,
              (SELECT coalesce(jsonb_agg(jsonb_build_object('id', m.id, 'kind', m.kind, 'modulus', m.modulus, 'positionId', p.id, 'positionName', p.name,
                        'ended', coalesce(m.ended_on, p.ended_on) IS NOT NULL) ORDER BY p.name, m.kind), '[]')
                 FROM meter m JOIN position p ON p.id = m.position_id WHERE p.skid_id = $1::uuid) AS meters,
              (SELECT coalesce(jsonb_agg(jsonb_build_object('id', id, 'name', name, 'chemical', chemical, 'heightM', height_m, 'ended', ended_on IS NOT NULL) ORDER BY name), '[]')
                 FROM tank WHERE skid_id = $1::uuid) AS tanks`,
      [skidId],
    );
    return rows[0] ?? { positions: [], meters: [], tanks: [] };
  }
}
