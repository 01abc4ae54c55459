import { Injectable } from '@nestjs/common';
import { faultIn, given, type Reader, viewOf } from '../app/index.js';
import { type TankShape, tankProblem } from './core/tank-shape.js';
import { dayOrNull } from './days.js';
import { Register } from './register.js';
import { openSkid } from './skids.repository.js';
import { type TankDto, type TankEditDto, TankView } from './tanks.dto.js';
import { type TankRow, tankRecords } from './tanks.repository.js';

@Injectable()
export class Tanks extends Register<TankRow, TankDto, TankEditDto, TankView> {
  protected readonly records = tankRecords;

  protected override async newColumns(tx: Reader, input: TankDto): Promise<object> {
    const skid = await openSkid(tx, input.skidId);
    if (skid === null) throw faultIn('skidId', 'there is no such skid, or it has ended');
    checkMeasures(input);
    return { ...given(input), clientId: skid.clientId };
  }

  protected override async changedColumns(_: Reader, row: TankRow, change: TankEditDto): Promise<object> {
    const columns = given(change);
    checkMeasures({ ...row, shape: row.shape as TankShape, ...columns });
    return columns;
  }

  protected override async skidsJudgedBy(_: Reader, { skidId }: TankRow): Promise<string[]> {
    return [skidId];
  }

  protected nameOf(row: TankRow): string {
    return row.name;
  }

  protected view(row: TankRow): TankView {
    const { id, clientId, skidId, name, chemical, diameterM, lengthM, widthM, heightM, capacityL, heelL, strengthGL, storageC } = row;
    const { doseMgL, litresPerCeb, litresPerCip, version } = row;
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
      endedOn: dayOrNull(row.endedOn),
      version,
    });
  }
}

function checkMeasures({ shape, diameterM = null, lengthM = null, widthM = null, capacityL, heelL = 0 }: Omit<TankDto, 'skidId'>): void {
  const problem = tankProblem({ shape, diameterM, lengthM, widthM, capacityL, heelL });
  if (problem !== null) throw faultIn(problem.field, problem.message);
}
