import { Injectable } from '@nestjs/common';
import { type Caller, Conflict, Database, given, type KeyedRequest, KeyedWork, NotFound, viewOf } from '../app/index.js';
import { type RuleSetDto, type RuleSetEditDto, RuleSetVersionHeadView, RuleSetView } from './rule-sets.dto.js';
import { createRuleSet, editRuleSet, findRuleSet, listRuleSets, type RuleSetWithVersions } from './rule-sets.repository.js';

/** Sets of rules that skids follow together. */
@Injectable()
export class RuleSets {
  constructor(
    private readonly database: Database,
    private readonly work: KeyedWork,
  ) {}

  async list(ended: boolean): Promise<RuleSetView[]> {
    return (await listRuleSets(this.database.prisma, ended)).map(toView);
  }

  async read(id: string): Promise<RuleSetView> {
    const set = await findRuleSet(this.database.prisma, { id });
    if (set === null) throw new NotFound('rule set', id);
    return toView(set);
  }

  /** With an empty draft as its first version. */
  create(caller: Caller, key: KeyedRequest, { name, note = '' }: RuleSetDto): Promise<RuleSetView> {
    return this.work.run(key, async (tx) => toView(await createRuleSet(tx, { name, note }, { createdBy: caller.name, publishedAt: null, publishedBy: null })));
  }

  async edit(id: string, version: number, { name, note }: RuleSetEditDto): Promise<RuleSetView> {
    await this.read(id);
    return toView(await editRuleSet(this.database.prisma, id, version, given({ name, note })));
  }

  async end(id: string, version: number, on: string): Promise<void> {
    const { name, versions } = await this.read(id);
    const followers = versions.reduce((sum, { skids }) => sum + skids, 0);
    if (followers > 0) throw new Conflict(`"${name}" is followed by ${followers} ${followers === 1 ? 'skid' : 'skids'}. Let them follow another set first`);
    await editRuleSet(this.database.prisma, id, version, { endedOn: new Date(on) });
  }
}

function toView({ id, name, note, endedOn, version, versions }: RuleSetWithVersions): RuleSetView {
  return viewOf(RuleSetView, {
    id,
    name,
    note,
    endedOn: endedOn?.toISOString().slice(0, 10) ?? null,
    version,
    versions: versions.map(({ _count: { rules, skids }, ruleSetId: _, ...head }) => viewOf(RuleSetVersionHeadView, { ...head, rules, skids })),
  });
}
