import { Injectable } from '@nestjs/common';
import { faultIn, given, type Reader, viewOf } from '../app/index.js';
import { chemicalClass, mustNotMeet } from '../shared/incompatibility.js';
import { type TankShape, tankProblem } from './core/tank-shape.js';
import { dayOrNull } from './days.js';
import { Register } from './register.js';
import { openSkid } from './skids.repository.js';
import { type TankDto, type TankEditDto, TankView } from './tanks.dto.js';
import { NO_LEVEL_TABLE, type TankRow, tankRecords } from './tanks.repository.js';

@Injectable()
export class Tanks extends Register<TankRow, TankDto, TankEditDto, TankView> {
  protected readonly records = tankRecords;

  protected override async newColumns(tx: Reader, input: TankDto): Promise<object> {
    const skid = await openSkid(tx, input.skidId);
    if (skid === null) throw faultIn('skidId', 'there is no such skid, or it has ended');
    checkMeasures(input);
    await checkFilling(tx, { ...given(input), chemical: input.chemical, id: null, siteId: skid.siteId });
    return toColumns({ ...given(input), clientId: skid.clientId });
  }

  protected override async changedColumns(tx: Reader, row: TankRow, change: TankEditDto): Promise<object> {
    const columns = given(change);
    const changed = { ...row, shape: row.shape as TankShape, levelTable: levelsOf(row), ...columns };
    checkMeasures(changed);
    const danger = mustNotMeet(row.chemical, changed.chemical);
    if (danger !== null)
      throw faultIn(
        'chemical',
        `the tank held ${row.chemical}, which must not meet ${changed.chemical}: ${danger.happens}. End this tank, rinse it, and register it as a new one`,
      );
    const { id, chemical, itemId, fedFromId } = changed;
    const skid = await openSkid(tx, row.skidId);
    if (skid !== null) await checkFilling(tx, { id, chemical, itemId, fedFromId, siteId: skid.siteId });
    return toColumns(columns);
  }

  protected override async skidsJudgedBy(_: Reader, { skidId }: TankRow): Promise<string[]> {
    return [skidId];
  }

  protected nameOf(row: TankRow): string {
    return row.name;
  }

  protected view(row: TankRow): TankView {
    const { id, clientId, skidId, name, chemical, diameterM, lengthM, widthM, heightM, capacityL, heelL, strengthGL, storageC } = row;
    const { doseMgL, litresPerCeb, litresPerCip, itemId, fedFromId, version } = row;
    return viewOf(TankView, {
      id,
      clientId,
      skidId,
      name,
      chemical,
      shape: row.shape as TankShape,
      diameterM,
      lengthM,
      widthM,
      heightM,
      capacityL,
      heelL,
      strengthGL,
      storageC,
      doseMgL,
      litresPerCeb,
      litresPerCip,
      levelTable: levelsOf(row),
      suppliedBy: row.suppliedBy as TankView['suppliedBy'],
      itemId,
      fedFromId,
      endedOn: dayOrNull(row.endedOn),
      version,
    });
  }
}

type Levels = NonNullable<TankDto['levelTable']>;

const levelsOf = ({ levelTable }: TankRow): Levels | null => levelTable as Levels | null;

/** An empty place of the table is SQL's null, not JSON's. */
function toColumns<T extends object>(columns: T): object {
  return 'levelTable' in columns && columns.levelTable === null ? { ...columns, levelTable: NO_LEVEL_TABLE } : columns;
}

function checkMeasures({
  shape,
  diameterM = null,
  lengthM = null,
  widthM = null,
  heightM,
  capacityL,
  heelL = 0,
  levelTable = null,
}: Omit<TankDto, 'skidId' | 'suppliedBy'>): void {
  const problem = tankProblem({ shape, diameterM, lengthM, widthM, heightM, capacityL, heelL, levelTable });
  if (problem !== null) throw faultIn(problem.field, problem.message);
}

interface Filling {
  readonly id: string | null;
  readonly siteId: string;
  readonly chemical: string;
  readonly itemId?: string | null;
  readonly fedFromId?: string | null;
}

/** What is bought to fill it must be an item; a day tank is filled from a tank of its site that holds the same and is none itself. */
async function checkFilling(tx: Reader, { id, siteId, chemical, itemId, fedFromId }: Filling): Promise<void> {
  if (itemId != null && (await tx.item.count({ where: { id: itemId, endedOn: null } })) === 0)
    throw faultIn('itemId', 'there is no such item, or it has ended');
  if (fedFromId == null) return;
  const from = await tx.tank.findFirst({ where: { id: fedFromId, endedOn: null, skid: { siteId } }, select: { name: true, chemical: true, fedFromId: true } });
  if (from === null) throw faultIn('fedFromId', 'there is no such tank at this site, or it has ended');
  if (fedFromId === id) throw faultIn('fedFromId', 'is the tank itself');
  if (from.fedFromId !== null) throw faultIn('fedFromId', `${from.name} is a day tank itself: name the tank from which both are filled`);
  const feeds = id === null ? 0 : await tx.tank.count({ where: { fedFromId: id, endedOn: null } });
  if (feeds > 0) throw faultIn('fedFromId', 'other tanks are filled from this one: it cannot be a day tank');
  if (chemicalClass(from.chemical) !== chemicalClass(chemical)) throw faultIn('fedFromId', `${from.name} holds ${from.chemical}, and this tank ${chemical}`);
}
