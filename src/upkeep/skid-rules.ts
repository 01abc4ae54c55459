import { Injectable } from '@nestjs/common';
import {
  type Caller,
  Clock,
  Conflict,
  Database,
  faultIn,
  type KeyedRequest,
  KeyedWork,
  NotFound,
  type Reader,
  Recompute,
  runnerOf,
  viewOf,
} from '../app/index.js';
import { effectiveRules } from './core/effective-rules.js';
import { createOverride, endOverride, overridesOf, placesOf, ruledSkid, sameOverride } from './overrides.repository.js';
import { ruleInWords } from './rule-in-words.js';
import { newestVersion } from './rule-sets.repository.js';
import { asRule, toRuleView } from './rule-view.js';
import { openSkid, rulesOf } from './rules.repository.js';
import { EffectiveRuleView, FollowedVersionView, type OverrideDto, OverrideView, SkidRulesView } from './skid-rules.dto.js';

type OverrideRow = Awaited<ReturnType<typeof overridesOf>>[number];

/** The rules that hold at a skid, where each comes from, and what is different here. */
@Injectable()
export class SkidRules {
  constructor(
    private readonly database: Database,
    private readonly work: KeyedWork,
    private readonly recompute: Recompute,
    private readonly clock: Clock,
  ) {}

  read(skidId: string): Promise<SkidRulesView> {
    return this.view(this.database.prisma, skidId);
  }

  override(caller: Caller, key: KeyedRequest, skidId: string, input: OverrideDto): Promise<OverrideView> {
    const { task, positionKind, positionId = null, off, runHours = null, starts = null, cycles = null, days = null, graceDays = null } = input;
    const reason = input.reason.trim();
    if (reason === '') throw faultIn('reason', 'say why the rule does not fit here: whoever comes next will ask');
    const limits = { runHours, starts, cycles, days, graceDays };
    const changes = Object.values(limits).some((limit) => limit !== null);
    if (off && changes) throw faultIn('off', 'a rule that is off has no limits: leave one of the two out');
    if (!off && !changes) throw faultIn('days', 'say what is different here: a limit, a grace, or that the rule is off');
    return this.work.run(key, async (tx) => {
      const skid = await openSkid(tx, skidId);
      if (skid === null) throw new NotFound('skid', skidId);
      const places = await placesOf(tx, skidId);
      const place = places.find(({ id }) => id === positionId);
      if (positionId !== null && place?.kind !== positionKind) throw faultIn('positionId', `the skid has no such position of the kind ${positionKind}`);
      const rules = await this.rules(tx, skid);
      if (!rules.some((rule) => rule.task === task && rule.positionKind === positionKind))
        throw faultIn('task', `no rule at this skid asks for "${task}" at the ${positionKind}: take the words of the rule`);
      const about = { skidId, positionId, positionKind, task };
      if ((await sameOverride(tx, about)) !== null) throw new Conflict('The rule is overridden there already. End that override first');
      const made = await createOverride(tx, { ...about, ...limits, off, reason, clientId: skid.clientId, by: caller.name, at: this.clock.now() });
      await this.recompute.later(skidId, runnerOf(tx));
      return toOverrideView(made, places);
    });
  }

  end(caller: Caller, skidId: string, id: string): Promise<void> {
    return this.database.write(async (tx) => {
      if (!(await endOverride(tx, skidId, id, this.clock.now(), caller.name))) throw new NotFound('override that still holds', id);
      await this.recompute.later(skidId, runnerOf(tx));
    });
  }

  private async view(reader: Reader, skidId: string): Promise<SkidRulesView> {
    const skid = await ruledSkid(reader, skidId);
    if (skid === null) throw new NotFound('skid', skidId);
    const rules = (await this.rules(reader, skid)).map(asRule);
    const overrides = await overridesOf(reader, skidId);
    const positions = await placesOf(reader, skidId);
    const places = [...(skid.kind === 'skid' ? [{ id: null, kind: 'skid', name: '' }] : []), ...positions];
    const holding = overrides.filter(({ endedAt }) => endedAt === null);
    return viewOf(SkidRulesView, {
      skidId,
      follows: await this.follows(reader, skid.ruleSetVersion),
      rules: places.flatMap((place) =>
        effectiveRules(place, rules, holding).map(({ rule, source, override }) =>
          viewOf(EffectiveRuleView, {
            positionId: place.id,
            positionName: place.name,
            source,
            reason: override?.reason ?? null,
            overrideId: override?.id ?? null,
            inWords: ruleInWords(rule),
            rule: toRuleView(rule),
          }),
        ),
      ),
      overrides: overrides.map((override) => toOverrideView(override, positions)),
    });
  }

  private async follows(reader: Reader, version: NonNullable<Awaited<ReturnType<typeof ruledSkid>>>['ruleSetVersion']): Promise<FollowedVersionView | null> {
    if (version === null) return null;
    const { id: versionId, no, ruleSet } = version;
    const newest = await newestVersion(reader, ruleSet.id);
    const newer = newest !== null && newest.no > no ? newest : null;
    const set = { ruleSetId: ruleSet.id, ruleSetName: ruleSet.name };
    return viewOf(FollowedVersionView, { ...set, versionId, no, newerVersionId: newer?.id ?? null, newerNo: newer?.no ?? null });
  }

  private async rules(reader: Reader, { id, ruleSetVersionId }: { id: string; ruleSetVersionId: string | null }) {
    const own = await rulesOf(reader, { skidId: id });
    return ruleSetVersionId === null ? own : [...(await rulesOf(reader, { ruleSetVersionId, skidId: null })), ...own];
  }
}

function toOverrideView({ clientId: _, skidId: __, ...override }: OverrideRow, places: readonly { id: string; name: string }[]): OverrideView {
  return viewOf(OverrideView, { ...override, positionName: places.find(({ id }) => id === override.positionId)?.name ?? null });
}
