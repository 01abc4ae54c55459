import { Injectable } from '@nestjs/common';
import { type Caller, Conflict, Database, InvalidRequest, NotFound, type Reader, Recompute, runnerOf, viewOf } from '../app/index.js';
import { dueChanges } from './core/due-changes.js';
import { DuesRepository } from './dues.repository.js';
import { OUTLOOK_TASKS } from './dues-of-outlooks.js';
import { upkeepOf } from './recompute-dues.js';
import { DueChangeView, FollowedView, FollowPreviewView } from './rule-sets.dto.js';
import { findVersion, follow, skidsToMove } from './rule-sets.repository.js';
import { UpkeepRepository } from './upkeep.repository.js';
import { UpkeepFacts } from './upkeep-facts.js';

type Movable = Awaited<ReturnType<typeof skidsToMove>>[number];

/** Lets skids follow a version of a rule set, or none any more, and says before what would become of their dues. */
@Injectable()
export class FollowRules {
  constructor(
    private readonly database: Database,
    private readonly facts: UpkeepFacts,
    private readonly repository: UpkeepRepository,
    private readonly dues: DuesRepository,
    private readonly recompute: Recompute,
  ) {}

  /** Nothing is changed. A draft can be looked at too. */
  async preview(versionId: string, skidIds: readonly string[]): Promise<FollowPreviewView> {
    if ((await findVersion(this.database.prisma, versionId)) === null) throw new NotFound('version of a rule set', versionId);
    return this.changes(skidIds, versionId);
  }

  /** What would become of the dues without a rule set: rules of the skid alone and outlooks stay. Nothing is changed. */
  previewLeaving(skidIds: readonly string[]): Promise<FollowPreviewView> {
    return this.changes(skidIds, null);
  }

  private async changes(skidIds: readonly string[], versionId: string | null): Promise<FollowPreviewView> {
    const { prisma } = this.database;
    const skids = await allOf(prisma, skidIds);
    const before = await this.dues.datesOf(skids.map(({ no }) => no));
    const sheets = await this.repository.sheetsOf(OUTLOOK_TASKS);
    const views: DueChangeView[] = [];
    for (const skid of skids) {
      const facts = await this.facts.ofSkid(skid, versionId);
      const after = facts === undefined ? [] : upkeepOf(facts, sheets).dues;
      const now = before.filter(({ skidNo }) => skidNo === skid.no);
      const { id, name, ruleSetVersion } = skid;
      const follows = ruleSetVersion === null ? null : `${ruleSetVersion.ruleSet.name}, version ${ruleSetVersion.no}`;
      views.push(viewOf(DueChangeView, { skidId: id, skidName: name, follows, ...dueChanges(now, after) }));
    }
    const sum = (field: 'added' | 'gone' | 'earlier' | 'later' | 'same') => views.reduce((total, view) => total + view[field], 0);
    const totals = { added: sum('added'), gone: sum('gone'), earlier: sum('earlier'), later: sum('later'), same: sum('same') };
    return viewOf(FollowPreviewView, { skids: views, ...totals });
  }

  move(caller: Caller, versionId: string, skidIds: readonly string[]): Promise<FollowedView> {
    return this.database.write(async (tx) => {
      const version = await findVersion(tx, versionId);
      if (version === null) throw new NotFound('version of a rule set', versionId);
      if (version.publishedAt === null) throw new Conflict(`Version ${version.no} of "${version.ruleSet.name}" is a draft. Publish it first`);
      if (version.ruleSet.endedOn !== null) throw new Conflict(`"${version.ruleSet.name}" has ended`);
      return this.moveTo(tx, caller, versionId, skidIds);
    });
  }

  /** From now on these skids follow no rule set. */
  leave(caller: Caller, skidIds: readonly string[]): Promise<FollowedView> {
    return this.database.write((tx) => this.moveTo(tx, caller, null, skidIds));
  }

  private async moveTo(tx: Reader, caller: Caller, versionId: string | null, skidIds: readonly string[]): Promise<FollowedView> {
    const skids = await allOf(tx, skidIds);
    const moved = skids.filter(({ ruleSetVersionId }) => ruleSetVersionId !== versionId);
    await follow(tx, moved, versionId, caller.name);
    for (const { id } of moved) await this.recompute.later(id, runnerOf(tx));
    return viewOf(FollowedView, { moved: moved.length, unchanged: skids.length - moved.length });
  }
}

async function allOf(reader: Reader, skidIds: readonly string[]): Promise<Movable[]> {
  const skids = await skidsToMove(reader, skidIds);
  const known = new Set(skids.map(({ id }) => id));
  const problems = skidIds.flatMap((id, at) =>
    known.has(id) ? [] : [{ pointer: `#/skidIds/${at}`, message: `there is no skid ${id}, or it has ended: take it out` }],
  );
  if (problems.length > 0) throw new InvalidRequest('The request has fields that need a change', problems);
  return skids;
}
