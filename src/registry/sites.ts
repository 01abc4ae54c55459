import { Injectable } from '@nestjs/common';
import { Conflict, faultIn, given, type Reader, viewOf } from '../app/index.js';
import { dayOrNull } from './days.js';
import { Register } from './register.js';
import { type SiteDto, type SiteEditDto, SiteView } from './sites.dto.js';
import { openClient, openSkidsOf, type SiteRow, siteRecords } from './sites.repository.js';

@Injectable()
export class Sites extends Register<SiteRow, SiteDto, SiteEditDto, SiteView> {
  protected readonly records = siteRecords;

  protected override async newColumns(tx: Reader, input: SiteDto): Promise<object> {
    if ((await openClient(tx, input.clientId)) === null) throw faultIn('clientId', 'there is no such client, or it has ended');
    checkPlace(input);
    return given(input);
  }

  protected override async changedColumns(_: Reader, row: SiteRow, change: SiteEditDto): Promise<object> {
    const columns = given(change);
    checkPlace({ ...row, ...columns });
    return columns;
  }

  protected override async checkEnd(tx: Reader, { id }: SiteRow): Promise<void> {
    const { length } = await openSkidsOf(tx, id);
    if (length > 0) throw new Conflict(`The site still has ${length} skid(s). End these first`);
  }

  /** Days are counted in the time zone of the site. */
  protected override skidsJudgedBy(tx: Reader, { id }: SiteRow): Promise<string[]> {
    return openSkidsOf(tx, id);
  }

  protected nameOf(row: SiteRow): string {
    return row.name;
  }

  protected view(row: SiteRow): SiteView {
    const { id, clientId, client, name, timeZone, latitude, longitude, accessHours, note, endedOn, version } = row;
    return viewOf(SiteView, {
      id,
      clientId,
      clientName: client.name,
      name,
      timeZone,
      latitude,
      longitude,
      accessHours,
      note,
      endedOn: dayOrNull(endedOn),
      version,
    });
  }
}

function checkPlace({ latitude = null, longitude = null }: { latitude?: number | null; longitude?: number | null }): void {
  if ((latitude === null) === (longitude === null)) return;
  const [missing, other] = latitude === null ? ['latitude', 'longitude'] : ['longitude', 'latitude'];
  throw faultIn(missing ?? '', `must be given with ${other}, or both left out`);
}
