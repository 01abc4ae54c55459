import { Injectable } from '@nestjs/common';
import { type Caller, faultIn, given, NotFound, type Reader, viewOf } from '../../app/index.js';
import { dayOrNull, NamedRecords, Register } from '../../registry/index.js';
import type { TankUser } from './records.repository.js';
import { type TankUserDto, type TankUserEditDto, TankUserView } from './tank-users.dto.js';

const tankUserRecords = new NamedRecords<TankUser>({
  what: 'user of a tank',
  table: (reader) => reader.tankUser,
  orderBy: 'name',
  searched: ['name'],
  include: {},
});

type NewUser = TankUserDto & { readonly tankId: string };

/** Who draws from a tank besides what the tank itself says. */
@Injectable()
export class TankUsers extends Register<TankUser, NewUser, TankUserEditDto, TankUserView> {
  protected readonly records = tankUserRecords;

  /** Refuses a tank that the caller may not see. */
  async ofTank(caller: Caller, tankId: string): Promise<{ tankId: string }> {
    const seen = await this.database.readFor(caller, (reader) => reader.tank.count({ where: { id: tankId } }));
    if (seen === 0) throw new NotFound('tank', tankId);
    return { tankId };
  }

  protected override async newColumns(tx: Reader, { tankId, ...input }: NewUser): Promise<object> {
    const tank = await tx.tank.findUnique({ where: { id: tankId }, select: { clientId: true, endedOn: true, skid: { select: { siteId: true } } } });
    if (tank === null || tank.endedOn !== null) throw new NotFound('tank', tankId);
    const { skidId = null } = input;
    if (skidId !== null && (await tx.skid.count({ where: { id: skidId, siteId: tank.skid.siteId, endedOn: null } })) === 0)
      throw faultIn('skidId', 'there is no such skid at the site of the tank, or it has ended');
    checkDraw({ ...input, skidId });
    return { ...given(input), tankId, clientId: tank.clientId };
  }

  protected override async changedColumns(_: Reader, row: TankUser, change: TankUserEditDto): Promise<object> {
    checkDraw({ ...row, ...given(change) });
    return given(change);
  }

  protected override async skidsJudgedBy(tx: Reader, { tankId }: TankUser): Promise<string[]> {
    const tank = await tx.tank.findUnique({ where: { id: tankId }, select: { skidId: true } });
    return tank === null ? [] : [tank.skidId];
  }

  protected nameOf({ name }: TankUser): string {
    return name;
  }

  protected view(row: TankUser): TankUserView {
    const { id, tankId, skidId, name, doseMgL, litresPerCeb, litresPerCip, litresPerDay, sdPerDay, endedOn, version } = row;
    return viewOf(TankUserView, {
      id,
      tankId,
      skidId,
      name,
      doseMgL,
      litresPerCeb,
      litresPerCip,
      litresPerDay,
      sdPerDay,
      endedOn: dayOrNull(endedOn),
      version,
    });
  }
}

/** Outside the skids nobody knows of filtrate and cleans: there an average day is all there is. */
function checkDraw({ skidId = null, doseMgL, litresPerCeb, litresPerCip, litresPerDay }: TankUserDto): void {
  if (skidId !== null) return;
  if (litresPerDay == null) throw faultIn('litresPerDay', 'is needed for a user outside the skids');
  for (const [field, value] of Object.entries({ doseMgL, litresPerCeb, litresPerCip })) {
    if (value != null) throw faultIn(field, 'is for skids only: of a user outside them say what an average day draws');
  }
}
