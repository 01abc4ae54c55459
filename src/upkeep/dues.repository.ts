import { Injectable } from '@nestjs/common';
import { Database, newId } from '../app/index.js';
import type { WeekOfWork } from './core/work-ahead.js';

export interface DueToStore {
  readonly positionId: string | null;
  readonly ruleId: string | null;
  readonly outlookId: string | null;
  readonly task: string;
  readonly taskSheetId: string | null;
  readonly limit: string;
  readonly earliestOn: string | null;
  readonly bestOn: string | null;
  readonly latestOn: string | null;
  readonly reason: string;
  readonly computedFrom: readonly { readonly name: string; readonly value: string }[];
  readonly expectedMinutes: number | null;
}

/** What is concluded of the upkeep of a skid. */
@Injectable()
export class DuesRepository {
  constructor(private readonly database: Database) {}

  /** Puts dues and the work ahead in the place of those that were stored. A due of the same task at the same place keeps its id, so that a list that somebody has open stays true. */
  async replace(skid: { no: number; clientId: string }, dues: readonly DueToStore[], weeks: readonly WeekOfWork[], now: Date): Promise<void> {
    await this.database.write(async (tx) => {
      const before = await tx.due.findMany({ where: { skidNo: skid.no }, select: { id: true, positionId: true, task: true } });
      const ids = new Map(before.map(({ id, positionId, task }) => [`${positionId} ${task}`, id]));
      const idOf = ({ positionId, task }: DueToStore): string => {
        const key = `${positionId} ${task}`;
        const id = ids.get(key) ?? newId();
        ids.delete(key);
        return id;
      };
      await tx.due.deleteMany({ where: { skidNo: skid.no } });
      await tx.due.createMany({
        data: dues.map((due) => {
          const { outlookId, computedFrom, earliestOn, bestOn, latestOn, ...columns } = due;
          return {
            ...columns,
            id: idOf(due),
            clientId: skid.clientId,
            skidNo: skid.no,
            outlookId: outlookId === null ? null : BigInt(outlookId),
            computedFrom: [...computedFrom],
            earliestOn: toDate(earliestOn),
            bestOn: toDate(bestOn),
            latestOn: toDate(latestOn),
            computedAt: now,
          };
        }),
      });
      await tx.workAhead.deleteMany({ where: { skidNo: skid.no } });
      await tx.workAhead.createMany({
        data: weeks.map(({ week, kind, hours, tasks, detail }) => ({
          skidNo: skid.no,
          clientId: skid.clientId,
          week: new Date(week),
          kind,
          hours,
          tasks,
          detail: detail.map((line) => ({ ...line })),
        })),
      });
    });
  }

  /** Of several skids, for comparison. */
  async datesOf(skidNos: readonly number[]): Promise<{ skidNo: number; positionId: string | null; task: string; bestOn: string | null }[]> {
    const rows = await this.database.prisma.due.findMany({
      where: { skidNo: { in: [...skidNos] } },
      select: { skidNo: true, positionId: true, task: true, bestOn: true },
    });
    return rows.map(({ bestOn, ...due }) => ({ ...due, bestOn: bestOn?.toISOString().slice(0, 10) ?? null }));
  }
}

function toDate(day: string | null): Date | null {
  return day === null ? null : new Date(day);
}
