import type { Reader } from '../../app/index.js';
import { createRuleSet, findRuleSet } from '../rule-sets.repository.js';
import { createSheet } from '../task-sheets.repository.js';
import { LIBRARY_NAME, LIBRARY_NOTE, LIBRARY_RULES, LIBRARY_SHEETS } from './library.js';

export interface LibraryInserted {
  readonly ruleSetId: string;
  readonly ruleSetVersionId: string;
  readonly sheetsMade: number;
  readonly rulesMade: number;
}

type Parts = readonly { readonly itemId: string; readonly quantity: string; readonly everyVisit: boolean }[];

/** Writes the library: sheets whose task has none yet, and the set as a published version unless a set of the name is there. `partsOf` knows the parts of a plant. */
export async function insertLibrary(tx: Reader, by: string, now: Date, partsOf: (task: string) => Parts = () => []): Promise<LibraryInserted> {
  const there = await tx.taskSheet.findMany({ where: { task: { in: LIBRARY_SHEETS.map(({ task }) => task) } }, select: { id: true, task: true } });
  const sheetIds = new Map(there.map(({ id, task }) => [task, id]));
  for (const { task, ...content } of LIBRARY_SHEETS) {
    if (!sheetIds.has(task)) sheetIds.set(task, await createSheet(tx, task, { ...content, parts: partsOf(task) }, by));
  }
  const sheetsMade = sheetIds.size - there.length;
  const known = await findRuleSet(tx, { name: LIBRARY_NAME });
  if (known !== null) return { ruleSetId: known.id, ruleSetVersionId: known.versions[0]?.id ?? '', sheetsMade, rulesMade: 0 };
  const set = await createRuleSet(tx, { name: LIBRARY_NAME, note: LIBRARY_NOTE }, { createdBy: by, publishedAt: now, publishedBy: by });
  const ruleSetVersionId = set.versions[0]?.id ?? '';
  await tx.upkeepRule.createMany({
    data: LIBRARY_RULES.map(({ contains, ...rule }) => ({ ...rule, contains: [...contains], ruleSetVersionId, taskSheetId: sheetIds.get(rule.task) ?? '' })),
  });
  return { ruleSetId: set.id, ruleSetVersionId, sheetsMade, rulesMade: LIBRARY_RULES.length };
}
