import { Injectable } from '@nestjs/common';
import { isOxidant } from '../../condition/core/fouling/oxidant-exposure.js';
import { localDays } from '../../condition/core/local-day.js';
import { isClosedIn } from '../../integrity/core/closed-in-module.js';
import { dayInWords } from '../../shared/day.js';
import { figure } from '../../shared/figure.js';
import type { ModuleInUse } from '../core/modules/module-outlook.js';
import { type CleanOfModulesRow, type ClosedRow, type FittedModuleRow, ModuleFactsRepository, type UnitOfModulesRow } from './module-facts.repository.js';

/** What is on record of a module beside the lives of its kind. */
export type ModuleFacts = Omit<ModuleInUse, 'part'>;

const DAY_MS = 86_400_000;

const daysBetweenMoments = (from: Date, to: Date): number => Math.max(0, (to.getTime() - from.getTime()) / DAY_MS);

/** Fibres closed, contact with free chlorine and cycles of each module of a skid, until the latest reading. */
@Injectable()
export class ModulesOfSkid {
  constructor(private readonly repository: ModuleFactsRepository) {}

  /** By position: four queries. */
  async facts(skid: { readonly id: string; readonly no: number }, origin: Date, timeZone: string): Promise<Map<string, ModuleFacts>> {
    const fitted = await this.repository.fitted(skid, timeZone);
    const [closed, cleans, unit] = await Promise.all([
      this.repository.closed(
        skid.id,
        fitted.map(({ partId }) => partId),
      ),
      this.repository.cleans(skid.id),
      this.repository.unit(skid),
    ]);
    const lastTest = unit === undefined ? null : testInWords(unit, localDays(timeZone));
    return new Map(fitted.map((module) => [module.id, factsOf(module, { closed, cleans, unit, origin, lastTest })]));
  }
}

interface OfUnit {
  readonly closed: readonly ClosedRow[];
  readonly cleans: readonly CleanOfModulesRow[];
  readonly unit: UnitOfModulesRow | undefined;
  readonly origin: Date;
  readonly lastTest: string | null;
}

function factsOf(module: FittedModuleRow, { closed, cleans, unit, origin, lastTest }: OfUnit): ModuleFacts {
  const { fittedAt, cycles, modules } = module;
  const fibres = unit?.fibresPerModule ?? null;
  const own = closed.filter((one) => isClosedIn(one, module) && one.at <= origin);
  // A log says its cleans from its beginning on; before it people may have entered some.
  const recordFrom = [unit?.recordFrom ?? null, cleans[0]?.at ?? null]
    .flatMap((at) => (at === null ? [] : [at]))
    .sort((one, other) => one.getTime() - other.getTime())[0];
  const knownFrom = recordFrom === undefined || recordFrom < fittedAt ? fittedAt : recordFrom;
  const contacts = cleans.filter(({ at, chemical }) => isOxidant(chemical) && at >= fittedAt && at <= origin);
  return {
    ageDays: daysBetweenMoments(fittedAt, origin),
    cycles,
    repairs: {
      fibres: fibres === null ? null : fibres * modules,
      closed: own.map(({ at, fibres: count, areaLostM2 }) => ({ age: daysBetweenMoments(fittedAt, at), fibres: count, areaLostM2 })),
    },
    contacts: {
      knownDays: recordFrom === undefined ? 0 : daysBetweenMoments(knownFrom, origin),
      contacts: contacts.map(({ mgL, minutes }) => (mgL === null || minutes === null ? null : (mgL * minutes) / 60)),
      makerPpmH: unit?.oxidantLimitPpmH ?? null,
    },
    lastTest,
  };
}

function testInWords({ testedAt, decayKpaMin, controlLimitKpaMin, outcome }: UnitOfModulesRow, dayOf: ReturnType<typeof localDays>): string | null {
  if (testedAt === null || decayKpaMin === null) return null;
  const limit = controlLimitKpaMin === null ? '' : ` of ${figure(controlLimitKpaMin)} that it may have`;
  return `The last pressure-decay test of its unit, on ${dayInWords(dayOf(testedAt.getTime()).day, '')}, ${outcome}: ${figure(decayKpaMin)} kPa/min${limit}`;
}
