import { Injectable } from '@nestjs/common';
import { Conflict, faultIn, given, type Reader, viewOf } from '../app/index.js';
import { nestingProblem } from './core/nesting.js';
import { dayOrNull } from './days.js';
import { FittedPartView, type PositionDto, type PositionEditDto, PositionView } from './positions.dto.js';
import { findPosition, openChildrenOf, type PositionRow, positionRecords } from './positions.repository.js';
import { Register } from './register.js';
import { openSkid } from './skids.repository.js';

@Injectable()
export class Positions extends Register<PositionRow, PositionDto, PositionEditDto, PositionView> {
  protected readonly records = positionRecords;

  protected override async newColumns(tx: Reader, input: PositionDto): Promise<object> {
    const skid = await openSkid(tx, input.skidId);
    if (skid === null) throw faultIn('skidId', 'there is no such skid, or it has ended');
    checkSignal(input.kind, input.signal);
    if (input.parentId != null) await checkNesting(tx, { id: null, skidId: skid.id, hasChildren: false }, input.parentId);
    return { ...given(input), clientId: skid.clientId };
  }

  protected override async changedColumns(tx: Reader, row: PositionRow, change: PositionEditDto): Promise<object> {
    const { id, skidId } = row;
    if (change.parentId != null) await checkNesting(tx, { id, skidId, hasChildren: (await openChildrenOf(tx, id)) > 0 }, change.parentId);
    checkSignal(change.kind ?? row.kind, change.signal === undefined ? row.signal : change.signal);
    return given(change);
  }

  protected override async checkEnd(tx: Reader, { id, fittings }: PositionRow): Promise<void> {
    if (fittings.length > 0) throw new Conflict('A part is fitted here. Remove it first');
    if ((await openChildrenOf(tx, id)) > 0) throw new Conflict('There are positions within this one. End these first');
  }

  protected override async skidsJudgedBy(_: Reader, { skidId }: PositionRow): Promise<string[]> {
    return [skidId];
  }

  protected nameOf(row: PositionRow): string {
    return row.name;
  }

  protected view(row: PositionRow): PositionView {
    const { id, clientId, skidId, parentId, name, strokesPerCycle, signal, endedOn, version } = row;
    const kind = row.kind as PositionView['kind'];
    const fitted = fittedIn(row);
    return viewOf(PositionView, { id, clientId, skidId, parentId, kind, name, strokesPerCycle, signal, fitted, endedOn: dayOrNull(endedOn), version });
  }
}

/** Only what measures has a signal. */
function checkSignal(kind: string, signal: string | null | undefined): void {
  if (signal != null && kind !== 'transmitter')
    throw faultIn('signal', `only a transmitter measures a signal, and this is a position of the kind ${kind}: leave the signal out, or change the kind`);
}

async function checkNesting(tx: Reader, place: Parameters<typeof nestingProblem>[0], parentId: string): Promise<void> {
  const parent = await findPosition(tx, parentId);
  const problem = nestingProblem(place, parent === null ? undefined : { ...parent, ended: parent.endedOn !== null });
  if (problem !== null) throw faultIn('parentId', problem);
}

function fittedIn({ fittings: [fitting] }: PositionRow): FittedPartView | null {
  if (fitting === undefined) return null;
  const { id, partId, fittedAt, part } = fitting;
  const { itemId, item, serialNumber, setCount, lot } = part;
  return viewOf(FittedPartView, { fittingId: id, partId, itemId, itemCode: item.code, itemName: item.name, serialNumber, setCount, lot, fittedAt });
}
