import { Injectable } from '@nestjs/common';
import { EditedMeanwhile, NotFound, Recompute, viewOf } from '../app/index.js';
import { type RuleDto, RuleView } from './rules.dto.js';
import { RulesRepository, type RuleWithSheet } from './rules.repository.js';

/** The rules that say when a task falls due. Each change makes the dues of the skids that it touches again. */
@Injectable()
export class Rules {
  constructor(
    private readonly repository: RulesRepository,
    private readonly recompute: Recompute,
  ) {}

  async list(skidId: string | undefined): Promise<RuleView[]> {
    return (await this.repository.list(skidId)).map(toView);
  }

  async read(id: string): Promise<RuleView> {
    const rule = await this.repository.find(id);
    if (rule === null) throw new NotFound('upkeep rule', id);
    return toView(rule);
  }

  async create(input: RuleDto): Promise<RuleView> {
    const rule = await this.repository.create(input);
    await this.touch(rule);
    return toView(rule);
  }

  async edit(id: string, version: number, input: RuleDto): Promise<RuleView> {
    const before = await this.read(id);
    const rule = await this.repository.edit(id, version, input);
    await this.touch(before);
    await this.touch(rule);
    return toView(rule);
  }

  async end(id: string, version: number, on: string): Promise<void> {
    const rule = await this.read(id);
    const { count } = await this.repository.end(id, version, on);
    if (count === 0) throw new EditedMeanwhile('The rule was edited after you read it. Read it again, then end it');
    await this.touch(rule);
  }

  private async touch(rule: { skidId: string | null; positionKind: string }): Promise<void> {
    for (const skidId of await this.repository.skidsOf(rule)) await this.recompute.later(skidId);
  }
}

function toView(rule: RuleWithSheet): RuleView {
  const { id, task, positionKind, skidId, runHours, starts, cycles, days, base, graceDays, contains, taskSheetId, note, version } = rule;
  const expectedMinutes = rule.taskSheet.versions[0]?.usualMinutes ?? null;
  return viewOf(RuleView, {
    id,
    task,
    positionKind,
    skidId,
    runHours,
    starts,
    cycles,
    days,
    base,
    graceDays,
    contains,
    taskSheetId,
    expectedMinutes,
    note,
    version,
  });
}
