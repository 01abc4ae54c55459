import { Injectable } from '@nestjs/common';
import { group } from 'd3-array';
import { localDays } from '../../condition/core/local-day.js';
import { dayInWords } from '../../shared/day.js';
import { type AgeByClock, LIFE_MODEL, type LifeOutlook, lifeOutlook } from '../core/lives/life-outlook.js';
import { MODULE_MODEL, type ModuleOutlook, moduleOutlook } from '../core/modules/module-outlook.js';
import type { StretchFor } from '../core/record/calibration.js';
import type { OutlookToStore } from '../core/skid/known-of-skid.js';
import { type ModuleFacts, ModulesOfSkid } from '../modules/modules-of-skid.js';
import { FleetLives, WEARING_KINDS } from './fleet-lives.js';
import { LivesRepository, type PartRow, type ReplacementRow } from './lives.repository.js';

/** What wears a part before what only comes along with it. */
const CLOCKS = ['run hours', 'strokes', 'cycles', 'starts', 'days'] as const;
/** Use differs from day to day by about so much of its mean, over the weeks that it was taken from. Common practice. */
const USE = { scatter: 0.3, days: 60 } as const;

/** Outlooks of the modules, machines and actuators of a skid, from how long parts of their kind have lived; of modules also from their closed fibres and their contact with free chlorine. */
@Injectable()
export class OutlooksOfParts {
  constructor(
    private readonly repository: LivesRepository,
    private readonly fleet: FleetLives,
    private readonly modules: ModulesOfSkid,
  ) {}

  async ofSkid(skid: { readonly id: string; readonly no: number }, origin: Date, timeZone: string, stretchFor: StretchFor): Promise<OutlookToStore[]> {
    const rows = await this.repository.inUse(skid.no, WEARING_KINDS);
    if (rows.length === 0) return [];
    const hasModules = rows.some(({ kind }) => kind === 'module');
    const [replacements, { at, of }, modules] = await Promise.all([
      this.repository.replacements(skid.id),
      this.fleet.now(),
      hasModules ? this.modules.facts(skid, origin, timeZone) : new Map<string, ModuleFacts>(),
    ]);
    const dayOf = localDays(timeZone);
    const originDay = dayOf(origin.getTime()).day;
    const learnedOn = `Learned from the fleet on ${dayInWords(dayOf(at.getTime()).day, '')}`;
    return [...group(rows, ({ positionId }) => positionId).values()].flatMap((own): OutlookToStore[] => {
      const [row] = own;
      if (row === undefined) return [];
      const clocks = CLOCKS.flatMap((clock) => ageBy(clock, own, of.get(`${row.kind} ${clock}`)));
      const part = { kind: row.kind, clocks, rule: ruleOf(row, replacements), originDay, stretchFor };
      const facts = modules.get(row.positionId);
      const outlook = facts === undefined ? { ...LIFE_MODEL, ...lifeOutlook(part) } : { ...MODULE_MODEL, ...moduleOutlook({ ...facts, part }) };
      return [toStore(outlook, row, { originAt: origin, originDay, learnedOn })];
    });
  }
}

interface About {
  readonly originAt: Date;
  readonly originDay: string;
  readonly learnedOn: string;
}

function toStore(
  outlook: (LifeOutlook | ModuleOutlook) & { readonly model: string; readonly modelVersion: string },
  { positionId, partId }: PartRow,
  { learnedOn, ...about }: About,
): OutlookToStore {
  const { kind, clock, model, modelVersion, text: reason } = outlook;
  const dataUsed = [...outlook.dataUsed, learnedOn];
  const limits = 'limits' in outlook ? outlook.limits : [];
  const base = {
    ...about,
    model,
    modelVersion,
    kind,
    clock,
    reason,
    dataUsed,
    limits,
    subject: positionId,
    partId,
    limitKind: 'life' as const,
    firstValue: null,
    path: [],
  };
  if (outlook.kind !== 'outlook') return { ...base, stretch: 1, limitValue: 0, metByDay: [], shareBeyond: null, p10Days: null, p50Days: null, p90Days: null };
  const { middleLife: limitValue, stretch, metByDay, shareBeyond, p10Days, p50Days, p90Days } = outlook;
  return { ...base, stretch, limitValue, metByDay, shareBeyond, p10Days, p50Days, p90Days };
}

function ageBy(clock: string, own: readonly PartRow[], fleet: AgeByClock['fleet'] | undefined): AgeByClock[] {
  const row = own.find((one) => one.clock === clock);
  if (row === undefined) return [];
  const use =
    clock === 'days'
      ? { mean: 1, sd: 0, days: USE.days }
      : row.dailyUse === null
        ? null
        : { mean: row.dailyUse, sd: USE.scatter * row.dailyUse, days: USE.days };
  return [{ clock, age: row.life, use, fleet: fleet ?? { kind: 'too-few', lives: 0, failures: 0, need: 3 } }];
}

/** The first limit of the first rule that has such a part replaced, what was agreed for its own place before others. */
function ruleOf({ kind, positionId }: PartRow, replacements: readonly ReplacementRow[]): { clock: string; interval: number } | null {
  const rule = replacements.find((one) => one.kind === kind && (one.positionId === null || one.positionId === positionId));
  if (rule === undefined) return null;
  const limits = [
    { clock: 'run hours', interval: rule.runHours },
    { clock: 'starts', interval: rule.starts },
    { clock: 'cycles', interval: rule.cycles },
    { clock: 'days', interval: rule.days },
  ];
  return limits.flatMap(({ clock, interval }) => (interval === null ? [] : [{ clock, interval }]))[0] ?? null;
}
