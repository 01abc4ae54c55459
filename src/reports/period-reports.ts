import { Injectable } from '@nestjs/common';
import { type Caller, Clock, NotFound } from '../app/index.js';
import { Trends } from '../outlook/index.js';
import { wallClockMs } from '../shared/wall-clock.js';
import { clientReport } from './core/client-report.js';
import type { Period, PeriodSkid, SkidPeriod } from './core/period-data.js';
import { skidReport } from './core/skid-report.js';
import { PeriodRepository } from './period.repository.js';
import { periodOf } from './period-of.js';
import { type ReportFile, unitsOf } from './report-file.js';
import { ReportRenderer } from './report-renderer.js';
import type { ReportPeriodQuery } from './reports.dto.js';

/** Reports of a period, of one skid or of all skids of a client. */
@Injectable()
export class PeriodReports {
  constructor(
    private readonly repository: PeriodRepository,
    private readonly trends: Trends,
    private readonly renderer: ReportRenderer,
    private readonly clock: Clock,
  ) {}

  async ofSkid(caller: Caller, skidId: string, query: ReportPeriodQuery): Promise<ReportFile> {
    const now = this.clock.now();
    const [skid] = await this.repository.skids(caller, { skidId }, now);
    if (skid === undefined) throw new NotFound('skid', skidId);
    const period = periodOf(query, todayAt(skid.timeZone, now));
    const [data] = await this.gather(caller, [skid], period, now);
    if (data === undefined) throw new NotFound('skid', skidId);
    const manner = { units: unitsOf(query), timeZone: skid.timeZone, now, period };
    return { name: fileName(skid.name, period), pdf: await this.renderer.render(skidReport(data, manner)) };
  }

  async ofClient(caller: Caller, clientId: string, query: ReportPeriodQuery): Promise<ReportFile> {
    const now = this.clock.now();
    const client = await this.repository.clientName(caller, clientId);
    if (client === undefined) throw new NotFound('client', clientId);
    const skids = await this.repository.skids(caller, { clientId }, now);
    const timeZone = skids[0]?.timeZone ?? 'UTC';
    const period = periodOf(query, todayAt(timeZone, now));
    const data = await this.gather(caller, skids, period, now);
    const report = clientReport(client, data, { units: unitsOf(query), timeZone, now, period });
    return { name: fileName(client, period), pdf: await this.renderer.render(report) };
  }

  private async gather(caller: Caller, skids: readonly PeriodSkid[], period: Period, now: Date): Promise<SkidPeriod[]> {
    const partsOf = await this.repository.parts(
      caller,
      skids.map(({ id }) => id),
      period,
      now,
    );
    const gathered: SkidPeriod[] = [];
    // One after the other: a client of many skids must not take every connection.
    for (const skid of skids) {
      const trends =
        skid.kind === 'skid' ? [await this.trends.read(caller, skid.id, 'permeability'), await this.trends.read(caller, skid.id, 'cartridge-dp')] : [];
      gathered.push({ skid, trends, ...partsOf(skid.id) });
    }
    return gathered;
  }
}

const todayAt = (timeZone: string, now: Date): string => new Date(wallClockMs(now.getTime(), timeZone)).toISOString().slice(0, 10);

const fileName = (of: string, { from, to }: Period): string => `${of} ${from} to ${to}.pdf`;
