import { Injectable } from '@nestjs/common';
import { type Caller, Clock, Conflict, Database, faultIn, given, type KeyedRequest, KeyedWork, NotFound, type Reader, viewOf } from '../app/index.js';
import { type RuleDifference, ruleDifferences } from './core/rule-differences.js';
import { FieldChangeView, FollowerView, RuleChangeView, RuleSetVersionView } from './rule-sets.dto.js';
import {
  createVersion,
  discardVersion,
  findRuleSet,
  findVersion,
  followersOf,
  lockRuleSet,
  publishVersion,
  type VersionWithSet,
  versionBefore,
} from './rule-sets.repository.js';
import { toRuleView } from './rule-view.js';
import { copyRules, rulesOf } from './rules.repository.js';

/** Versions of a rule set: a draft is changed until it is published, and final from then on. */
@Injectable()
export class RuleSetVersions {
  constructor(
    private readonly database: Database,
    private readonly work: KeyedWork,
    private readonly clock: Clock,
  ) {}

  async read(id: string): Promise<RuleSetVersionView> {
    return this.view(this.database.prisma, await existing(this.database.prisma, id));
  }

  /** A copy of the latest version, to be changed and published. */
  draft(caller: Caller, key: KeyedRequest, ruleSetId: string, note = ''): Promise<RuleSetVersionView> {
    return this.work.run(key, async (tx) => {
      if (!(await lockRuleSet(tx, ruleSetId))) throw new NotFound('rule set', ruleSetId);
      const set = await findRuleSet(tx, { id: ruleSetId });
      const latest = set?.versions[0];
      if (set?.endedOn != null) throw new Conflict(`"${set.name}" has ended`);
      if (latest !== undefined && latest.publishedAt === null)
        throw new Conflict(`Version ${latest.no} of "${set?.name}" is a draft already. Change that one, publish or discard it`);
      const version = await createVersion(tx, ruleSetId, (latest?.no ?? 0) + 1, { note, createdBy: caller.name });
      if (latest !== undefined) await copyRules(tx, latest.id, version.id);
      return this.view(tx, version);
    });
  }

  publish(caller: Caller, id: string, note: string | undefined): Promise<RuleSetVersionView> {
    return this.database.write(async (tx) => {
      const version = await draftOf(tx, id);
      if ((await rulesOf(tx, { ruleSetVersionId: id })).length === 0)
        throw faultIn('rules', `version ${version.no} of "${version.ruleSet.name}" has no rule: add rules, or discard the draft`);
      return this.view(tx, await publishVersion(tx, id, { publishedAt: this.clock.now(), publishedBy: caller.name, ...given({ note }) }));
    });
  }

  discard(id: string): Promise<void> {
    return this.database.write(async (tx) => {
      await draftOf(tx, id);
      await discardVersion(tx, id);
    });
  }

  private async view(reader: Reader, version: VersionWithSet): Promise<RuleSetVersionView> {
    const { id, ruleSetId, ruleSet, no, note, createdAt, createdBy, publishedAt, publishedBy } = version;
    const rules = await rulesOf(reader, { ruleSetVersionId: id });
    const before = await versionBefore(reader, ruleSetId, no);
    const old = before === null ? [] : await rulesOf(reader, { ruleSetVersionId: before.id });
    const skids = await followersOf(reader, id);
    return viewOf(RuleSetVersionView, {
      id,
      ruleSetId,
      ruleSetName: ruleSet.name,
      no,
      note,
      createdAt,
      createdBy,
      publishedAt,
      publishedBy,
      rules: rules.map(toRuleView),
      changes: ruleDifferences(old.map(named), rules.map(named)).map(toChangeView),
      skids: skids.map(({ id: skidId, name, site, client }) => viewOf(FollowerView, { id: skidId, name, siteName: site.name, clientName: client.name })),
    });
  }
}

/** With the name of its sheet, which says more than an id. */
function named(rule: Awaited<ReturnType<typeof rulesOf>>[number]) {
  return { ...rule, taskSheetId: rule.taskSheet.task };
}

function toChangeView({ positionKind, task, what, fields }: RuleDifference): RuleChangeView {
  return viewOf(RuleChangeView, { positionKind, task, what, fields: fields.map((field) => viewOf(FieldChangeView, field)) });
}

async function existing(reader: Reader, id: string): Promise<VersionWithSet> {
  const version = await findVersion(reader, id);
  if (version === null) throw new NotFound('version of a rule set', id);
  return version;
}

async function draftOf(tx: Reader, id: string): Promise<VersionWithSet> {
  await lockRuleSet(tx, (await existing(tx, id)).ruleSetId);
  const version = await existing(tx, id);
  if (version.publishedAt === null) return version;
  throw new Conflict(`Version ${version.no} of "${version.ruleSet.name}" is published and final. Make a draft of the set to change its rules`);
}
