import { Injectable } from '@nestjs/common';
import { faultIn, given, type Reader, viewOf } from '../app/index.js';
import { dayOrNull } from './days.js';
import { type MeterDto, type MeterEditDto, MeterView } from './meters.dto.js';
import { type MeterRow, meterRecords } from './meters.repository.js';
import { findPosition } from './positions.repository.js';
import { Register } from './register.js';

@Injectable()
export class Meters extends Register<MeterRow, MeterDto, MeterEditDto, MeterView> {
  protected readonly records = meterRecords;

  protected override async newColumns(tx: Reader, input: MeterDto): Promise<object> {
    const position = await findPosition(tx, input.positionId);
    if (position === null || position.endedOn !== null) throw faultIn('positionId', 'there is no such position, or it has ended');
    return { ...given(input), clientId: position.clientId };
  }

  protected override async skidsJudgedBy(_: Reader, { position }: MeterRow): Promise<string[]> {
    return [position.skidId];
  }

  protected nameOf(row: MeterRow): string {
    return row.kind;
  }

  protected view({ id, positionId, position, kind, modulus, endedOn, version }: MeterRow): MeterView {
    return viewOf(MeterView, {
      id,
      skidId: position.skidId,
      positionId,
      positionName: position.name,
      kind: kind as MeterView['kind'],
      modulus,
      endedOn: dayOrNull(endedOn),
      version,
    });
  }
}
