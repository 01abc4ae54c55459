import { Injectable } from '@nestjs/common';
import { type Caller, InvalidRequest, type PageQuery, readCursor, toPage, viewOf } from '../app/index.js';
import { ServiceLogEntryView, ServiceLogView } from './events.dto.js';
import { ServiceLogRepository, type ServiceLogRow } from './repositories/service-log.repository.js';
import { SkidAccess } from './skid-access.js';

/** All that was done at a skid, the latest first. */
@Injectable()
export class ServiceLog {
  constructor(
    private readonly access: SkidAccess,
    private readonly log: ServiceLogRepository,
  ) {}

  async list(caller: Caller, skidId: string, { limit, cursor, find = '' }: PageQuery): Promise<ServiceLogView> {
    await this.access.toRead(caller, skidId);
    const rows = await this.log.list(caller, skidId, { find, behind: behindCursor(cursor), take: limit + 1 });
    return viewOf(
      ServiceLogView,
      toPage(rows, limit, toView, ({ at, id }) => [at.toISOString(), id]),
    );
  }
}

function behindCursor(cursor: string | undefined): [string, string] | null {
  const key = readCursor(cursor, 2);
  if (key === undefined) return null;
  const [at, id] = key.map(String) as [string, string];
  if (Number.isNaN(Date.parse(at)) || id.includes('\0')) throw new InvalidRequest('The cursor is not one that a list of this kind gave');
  return [new Date(at).toISOString(), id];
}

function toView({ id, kind, at, positionId, positionName, what, by, note }: ServiceLogRow): ServiceLogEntryView {
  return viewOf(ServiceLogEntryView, { id, kind, at, positionId, positionName, what, by, note });
}
