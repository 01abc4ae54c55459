import { Injectable } from '@nestjs/common';
import { type Caller, faultIn, given, InvalidRequest, type Reader, viewOf } from '../app/index.js';
import { dateOf, dayOf, dayOrNull } from './days.js';
import { Register } from './register.js';
import { openSite } from './sites.repository.js';
import { SkidAreaView, type SkidDto, type SkidEditDto, SkidView } from './skids.dto.js';
import { countSkidsAt, type SkidRow, setServed, skidRecords } from './skids.repository.js';

@Injectable()
export class Skids extends Register<SkidRow, SkidDto, SkidEditDto, SkidView> {
  protected readonly records = skidRecords;

  /** The skids that shared equipment serves, instead of those that it served before. */
  serve(id: string, skidIds: readonly string[]): Promise<SkidView> {
    return this.database.write(async (tx) => {
      const shared = await this.records.find(tx, id);
      if (shared.kind !== 'shared') throw new InvalidRequest('Only shared equipment serves skids');
      await checkServed(tx, shared.siteId, skidIds, 'skidIds');
      await setServed(tx, shared, [...new Set(skidIds)]);
      return this.judged(tx, await this.records.find(tx, id));
    });
  }

  protected override async newColumns(tx: Reader, input: SkidDto, caller: Caller): Promise<object> {
    const { commissionedOn, areas = [], serves = [], ...columns } = input;
    const site = await openSite(tx, input.siteId);
    if (site === null) throw faultIn('siteId', 'there is no such site, or it has ended');
    const { clientId } = site;
    if (serves.length > 0 && input.kind !== 'shared') throw faultIn('serves', 'only equipment of the kind shared serves skids');
    await checkServed(tx, site.id, serves, 'serves');
    const state = input.serviceState ?? 'in service';
    return {
      ...given(columns),
      clientId,
      commissionedOn: commissionedOn == null ? null : dateOf(commissionedOn),
      areas: { create: areas.map(({ fromDay, areaM2 }) => ({ fromDay: dateOf(fromDay), areaM2 })) },
      serves: { create: [...new Set(serves)].map((skidId) => ({ skidId, clientId })) },
      stateChanges: { create: { clientId, at: this.clock.now(), state, by: caller.name } },
    };
  }

  protected override async changedColumns(tx: Reader, row: SkidRow, { commissionedOn, ...change }: SkidEditDto): Promise<object> {
    const { siteId } = change;
    if (siteId !== undefined && siteId !== row.siteId) {
      const site = await openSite(tx, siteId);
      if (site?.clientId !== row.clientId)
        throw faultIn('siteId', 'must be a site of the same client that has not ended. For another client, register the skid anew');
    }
    return { ...given(change), ...(commissionedOn === undefined ? {} : { commissionedOn: commissionedOn === null ? null : dateOf(commissionedOn) }) };
  }

  protected override async skidsJudgedBy(_: Reader, { id }: SkidRow): Promise<string[]> {
    return [id];
  }

  protected nameOf(row: SkidRow): string {
    return row.name;
  }

  protected view(row: SkidRow): SkidView {
    const { id, clientId, siteId, name, serialNumber, water, ratedFlowM3h, feedHeightM, filtrateHeightM, concentrateHeightM, baselineLmhBar, referenceC } = row;
    const { permeabilityLimitFraction, cartridgeLimitKpa, cartridgeReferenceFlowM3h, note, version } = row;
    return viewOf(SkidView, {
      id,
      clientId,
      clientName: row.client.name,
      siteId,
      siteName: row.site.name,
      timeZone: row.site.timeZone,
      kind: row.kind as SkidView['kind'],
      name,
      serialNumber,
      water,
      ratedFlowM3h,
      flowScheme: row.flowScheme as SkidView['flowScheme'],
      tmpFrom: row.tmpFrom as SkidView['tmpFrom'],
      feedHeightM,
      filtrateHeightM,
      concentrateHeightM,
      commissionedOn: dayOrNull(row.commissionedOn),
      baselineLmhBar,
      referenceC,
      permeabilityLimitFraction,
      cartridgeLimitKpa,
      cartridgeReferenceFlowM3h,
      serviceState: row.serviceState as SkidView['serviceState'],
      note,
      areas: row.areas.map(({ fromDay, areaM2 }) => viewOf(SkidAreaView, { fromDay: dayOf(fromDay), areaM2 })),
      serves: row.serves.map(({ skidId }) => skidId),
      servedBy: row.servedBy.map(({ sharedId }) => sharedId),
      endedOn: dayOrNull(row.endedOn),
      version,
    });
  }
}

async function checkServed(tx: Reader, siteId: string, skidIds: readonly string[], field: string): Promise<void> {
  const wanted = new Set(skidIds);
  if ((await countSkidsAt(tx, siteId, [...wanted])) !== wanted.size) throw faultIn(field, 'must be skids of the same site that have not ended');
}
