import { Injectable } from '@nestjs/common';
import { type Caller, Conflict, faultIn, given, type Reader, viewOf } from '../app/index.js';
import { dayOrNull, Register } from '../registry/index.js';
import { keptApart } from './core/supply/kept-apart.js';
import { balances, lockPlaceAlone } from './ledger.repository.js';
import { PlaceCautionsView, type PlaceDto, type PlaceEditDto, type PlaceKind, PlaceView } from './places.dto.js';
import { chemicalsAt, isOpenSite, lockStaff, type PlaceRow, placeRecords, vanOf } from './places.repository.js';

@Injectable()
export class Places extends Register<PlaceRow, PlaceDto, PlaceEditDto, PlaceView> {
  protected readonly records = placeRecords;

  /** What lies there and must not meet. It is said and not forbidden: bays and bunds are not on record. */
  async cautions(caller: Caller, id: string): Promise<PlaceCautionsView> {
    const { kind } = await this.read(caller, id);
    const chemicals = await chemicalsAt(this.database.prisma, id);
    return viewOf(PlaceCautionsView, {
      cautions: keptApart(
        kind,
        chemicals.map(({ name }) => name),
      ),
    });
  }

  protected override async newColumns(tx: Reader, input: PlaceDto): Promise<object> {
    await checkOwner(tx, input);
    return given(input);
  }

  protected override async changedColumns(tx: Reader, row: PlaceRow, change: PlaceEditDto): Promise<object> {
    const columns = given(change);
    if (row.kind === 'transit' && columns.kind !== undefined) throw faultIn('kind', 'goods on the way lie here: it stays what it is');
    await checkOwner(tx, { ...row, kind: row.kind as PlaceKind, ...columns }, row.id);
    return columns;
  }

  protected override async checkEnd(tx: Reader, { id, kind }: PlaceRow): Promise<void> {
    if (kind === 'transit') throw new Conflict('Goods on the way lie there: it does not end');
    await lockPlaceAlone(tx, id);
    const { length } = await balances(tx, { placeIds: [id] });
    if (length > 0) throw new Conflict(`Stock still lies there (${length} lines). Move it elsewhere first`);
  }

  protected nameOf(row: PlaceRow): string {
    return row.name;
  }

  protected view({ id, name, kind, siteId, site, personId, person, note, endedOn, version }: PlaceRow): PlaceView {
    return viewOf(PlaceView, {
      id,
      name,
      kind: kind as PlaceKind,
      siteId,
      siteName: site?.name ?? null,
      personId,
      personName: person?.name ?? null,
      note,
      endedOn: dayOrNull(endedOn),
      version,
    });
  }
}

interface Owned {
  readonly kind: PlaceKind;
  readonly siteId?: string | null;
  readonly personId?: string | null;
}

async function checkOwner(tx: Reader, { kind, siteId = null, personId = null }: Owned, id?: string): Promise<void> {
  if (kind !== 'site' && siteId !== null) throw faultIn('siteId', `a ${kind} is of no site: leave it out`);
  if (kind !== 'van' && personId !== null) throw faultIn('personId', `a ${kind} is nobody’s: leave it out`);
  if (kind === 'site' && (siteId === null || !(await isOpenSite(tx, siteId)))) throw faultIn('siteId', 'must be a site that has not ended');
  if (kind === 'van') {
    if (personId === null || !(await lockStaff(tx, personId))) throw faultIn('personId', 'must be somebody of the staff who has not ended');
    const van = await vanOf(tx, personId);
    if (van !== null && van.id !== id) throw new Conflict(`This person has a van already: ${van.name}`);
  }
}
