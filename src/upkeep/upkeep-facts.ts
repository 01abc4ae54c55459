import { Injectable } from '@nestjs/common';
import { Clock, type SkidToRecompute } from '../app/index.js';
import { localDays } from '../condition/core/local-day.js';
import { type MachineLife, MachineLives } from '../condition/index.js';
import { IntakeFacts } from '../intake/index.js';
import { type LaidUpSpan, laidUpSpans } from './core/laid-up.js';
import {
  type DailyFigures,
  type LatestOutlook,
  type OverrideRow,
  type ProofRow,
  type UpkeepPlace,
  UpkeepRepository,
  type UpkeepRuleRow,
  type UpkeepSkid,
} from './upkeep.repository.js';

/** Everything that says when the work of a skid falls due. */
export interface SkidFacts {
  readonly skid: UpkeepSkid;
  /** Positions, and the skid as a whole */
  readonly places: readonly UpkeepPlace[];
  readonly rules: readonly UpkeepRuleRow[];
  readonly overrides: readonly OverrideRow[];
  readonly lives: readonly MachineLife[];
  readonly done: readonly { readonly positionId: string | null; readonly task: string; readonly at: Date }[];
  /** Recovery cleans, in order of time */
  readonly cleans: readonly Date[];
  readonly proofs: readonly ProofRow[];
  readonly figures: readonly DailyFigures[];
  /** None unless the skid is in service */
  readonly outlooks: readonly LatestOutlook[];
  readonly laidUp: readonly LaidUpSpan[];
}

@Injectable()
export class UpkeepFacts {
  constructor(
    private readonly repository: UpkeepRepository,
    private readonly intake: IntakeFacts,
    private readonly machines: MachineLives,
    private readonly clock: Clock,
  ) {}

  /** Undefined: the skid has ended or is retired, so nothing is asked for. By the rules of `ruleSetVersionId` (null: of no set) where it is given, else by those that the skid follows. */
  async ofSkid({ id, no }: Pick<SkidToRecompute, 'id' | 'no'>, ruleSetVersionId?: string | null): Promise<SkidFacts | undefined> {
    const skid = await this.repository.skid(id, this.clock.now());
    if (skid === undefined || skid.serviceState === 'retired') return undefined;
    const rules = await this.repository.rules(id, ruleSetVersionId === undefined ? skid.ruleSetVersionId : ruleSetVersionId);
    const [positions, overrides, lives, done, cleans, proofs, outlooks, changes] = await Promise.all([
      this.repository.positions(id),
      this.repository.overrides(id),
      this.machines.ofSkid({ id, no }),
      this.intake.serviceEntriesOf(id),
      this.intake.cleansOf(id),
      this.repository.proofs(id),
      skid.serviceState === 'in service' ? this.repository.outlooks(no) : [],
      this.repository.stateChanges(id),
    ]);
    const figures = rules.some(({ conditionFigure }) => conditionFigure !== null) ? await this.repository.dailyFigures(no, skid.today) : [];
    const whole = skid.kind === 'skid' ? [{ id: null, kind: 'skid', name: '', fittedAt: null }] : [];
    return {
      skid,
      places: [...whole, ...positions],
      rules,
      overrides,
      lives,
      done,
      cleans: cleans.filter(({ kind }) => kind === 'CIP').map(({ at }) => at),
      proofs,
      figures,
      outlooks,
      laidUp: spansOf(skid, changes),
    };
  }
}

/** The state that the skid has counts, also where its changes were not recorded. */
function spansOf({ timeZone, serviceState, today }: UpkeepSkid, changes: readonly { at: Date; state: string }[]): LaidUpSpan[] {
  const dayOf = localDays(timeZone);
  const spans = laidUpSpans(changes.map(({ at, state }) => ({ day: dayOf(at.getTime()).day, state })));
  const isLaidUp = spans.at(-1)?.to === null;
  return serviceState === 'laid up' && !isLaidUp ? [...spans, { from: today, to: null }] : spans;
}
