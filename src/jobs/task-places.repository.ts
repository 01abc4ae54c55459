import type { Reader } from '../app/index.js';
import type { OwnTask } from './make-jobs.js';

/** The first task that names a position of another skid, or a sheet that is not there. */
export async function unknownOfTasks(reader: Reader, skidId: string, tasks: readonly OwnTask[]): Promise<{ field: string; message: string } | null> {
  const positionIds = tasks.flatMap(({ positionId }) => positionId ?? []);
  const sheetIds = tasks.flatMap(({ taskSheetId }) => taskSheetId ?? []);
  const positions = positionIds.length === 0 ? [] : await reader.position.findMany({ where: { id: { in: positionIds }, skidId }, select: { id: true } });
  const sheets = sheetIds.length === 0 ? [] : await reader.taskSheet.findMany({ where: { id: { in: sheetIds } }, select: { id: true } });
  for (const [at, { positionId, taskSheetId }] of tasks.entries()) {
    if (positionId !== null && !positions.some(({ id }) => id === positionId)) {
      return { field: `tasks/${at}/positionId`, message: `${positionId} is no position of this skid` };
    }
    if (taskSheetId !== null && !sheets.some(({ id }) => id === taskSheetId)) {
      return { field: `tasks/${at}/taskSheetId`, message: `there is no task sheet ${taskSheetId}` };
    }
  }
  return null;
}
