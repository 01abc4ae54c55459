import { Injectable } from '@nestjs/common';
import { Conflict, Database, faultIn, InvalidRequest, type KeyedRequest, KeyedWork, NotFound, type Reader, Recompute, runnerOf } from '../app/index.js';
import { ruleFaults } from './core/rule-faults.js';
import { findVersion } from './rule-sets.repository.js';
import { toRuleView } from './rule-view.js';
import type { RuleContentDto, RuleDto, RuleView } from './rules.dto.js';
import { createRule, editRule, endRule, findRule, isOpenSheet, openSkid, type RuleHome, type RuleWithSheet, removeRule, rulesOf } from './rules.repository.js';

/** The rules of a draft, and those of one skid alone. Rules of a published version are final. */
@Injectable()
export class Rules {
  constructor(
    private readonly database: Database,
    private readonly work: KeyedWork,
    private readonly recompute: Recompute,
  ) {}

  async read(id: string): Promise<RuleView> {
    return toRuleView(await existing(this.database.prisma, id));
  }

  create(key: KeyedRequest, { ruleSetVersionId, skidId, ...rule }: RuleDto): Promise<RuleView> {
    return this.work.run(key, async (tx) => {
      if ((ruleSetVersionId === undefined) === (skidId === undefined))
        throw faultIn('skidId', 'a rule belongs to a draft of a rule set or to one skid alone: name one of ruleSetVersionId and skidId');
      const home = { ruleSetVersionId: ruleSetVersionId ?? null, skidId: skidId ?? null };
      await checkHome(tx, home);
      await checkRule(tx, home, rule);
      return this.judged(tx, await createRule(tx, home, rule));
    });
  }

  edit(id: string, version: number, rule: RuleContentDto): Promise<RuleView> {
    return this.database.write(async (tx) => {
      const before = await existing(tx, id);
      if (before.endedOn !== null) throw new InvalidRequest('The rule has ended and cannot be edited');
      await checkHome(tx, before);
      await checkRule(tx, before, rule, id);
      return this.judged(tx, await editRule(tx, id, version, rule));
    });
  }

  /** Takes a rule out of a draft. */
  remove(id: string, version: number): Promise<void> {
    return this.database.write(async (tx) => {
      const rule = await existing(tx, id);
      if (rule.skidId !== null) throw new Conflict('A rule of a skid is not removed but ended: send the last day that it holds to /end');
      await checkHome(tx, rule);
      await removeRule(tx, id, version);
    });
  }

  /** Ends a rule of one skid. */
  end(id: string, version: number, on: string): Promise<void> {
    return this.database.write(async (tx) => {
      const rule = await existing(tx, id);
      if (rule.skidId === null)
        throw new Conflict('A rule of a set does not end by itself: make a draft of the set, remove the rule there and publish the draft');
      await this.judged(tx, await endRule(tx, id, version, on));
    });
  }

  private async judged(tx: Reader, rule: RuleWithSheet): Promise<RuleView> {
    if (rule.skidId !== null) await this.recompute.later(rule.skidId, runnerOf(tx));
    return toRuleView(rule);
  }
}

async function existing(reader: Reader, id: string): Promise<RuleWithSheet> {
  const rule = await findRule(reader, id);
  if (rule === null) throw new NotFound('upkeep rule', id);
  return rule;
}

/** Refuses to change what others follow already. */
async function checkHome(tx: Reader, { ruleSetVersionId, skidId }: RuleHome): Promise<void> {
  if (skidId !== null && (await openSkid(tx, skidId)) === null) throw faultIn('skidId', 'there is no such skid, or it has ended');
  if (ruleSetVersionId === null) return;
  const version = await findVersion(tx, ruleSetVersionId);
  if (version === null) throw faultIn('ruleSetVersionId', 'there is no such version of a rule set');
  if (version.publishedAt !== null) {
    const { ruleSet, no } = version;
    throw new Conflict(`Version ${no} of "${ruleSet.name}" is published and final. Make a draft of the set, change the rule there and publish the draft`);
  }
}

async function checkRule(tx: Reader, home: RuleHome, rule: RuleContentDto, ownId?: string): Promise<void> {
  if (!(await isOpenSheet(tx, rule.taskSheetId))) throw faultIn('taskSheetId', 'there is no such task sheet, or it has ended');
  const { ruleSetVersionId, skidId } = home;
  const others = (await rulesOf(tx, ruleSetVersionId === null ? { skidId } : { ruleSetVersionId })).filter(
    ({ id, positionKind }) => id !== ownId && positionKind === rule.positionKind,
  );
  const twice = { field: 'task', message: `"${rule.task}" has a rule for the ${rule.positionKind} already: edit that one` };
  const faults = [...(others.some(({ task }) => task === rule.task) ? [twice] : []), ...ruleFaults(rule, others)];
  if (faults.length > 0) {
    throw new InvalidRequest(
      'The request has fields that need a change',
      faults.map(({ field, message }) => ({ pointer: `#/${field}`, message })),
    );
  }
}
