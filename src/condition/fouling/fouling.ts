import { Injectable } from '@nestjs/common';
import { median } from 'd3-array';
import { subDays } from 'date-fns';
import { type Caller, NotFound, viewOf } from '../../app/index.js';
import { IntakeFacts } from '../../intake/index.js';
import { baselinesInWords } from '../core/fouling/baselines-in-words.js';
import type { BlockingLaw } from '../core/fouling/blocking-laws.js';
import { type BlockingReading, blockingReading } from '../core/fouling/blocking-reading.js';
import { cleanRecoveries, declineInWords } from '../core/fouling/clean-recovery.js';
import { type FoulingIndex, irreversibleFoulingIndex } from '../core/fouling/fouling-index.js';
import { inferredCleans } from '../core/fouling/inferred-cleans.js';
import { isOxidant, oxidantExposure } from '../core/fouling/oxidant-exposure.js';
import { type FoulingDay, type ResistanceParts, resistanceParts } from '../core/fouling/resistance-parts.js';
import { crossChecks } from '../core/instruments/cross-checks.js';
import {
  BlockingView,
  CleanRecoveryView,
  FoulingIndexView,
  FoulingView,
  InferredCleanView,
  InstrumentDoubtView,
  LawFitView,
  OxidantExposureView,
  ResistanceDayView,
} from './fouling.dto.js';
import { type FoulingCleanRow, FoulingRepository, type FoulingSkidRow } from './fouling.repository.js';

/** Instruments are held against each other over the runs of so many days. */
const CHECKED_DAYS = 120;
const TERA = 1e12;
const LITRES = 1000;
const LOAD_DAYS = 14;
const NAMES: Readonly<Record<BlockingLaw, string>> = {
  complete: 'complete blocking (pores are closed one after the other)',
  standard: 'standard blocking (pores grow narrow)',
  intermediate: 'intermediate blocking (pores are closed, and what closes them covered)',
  cake: 'a cake (a layer grows on the membrane)',
};

/** What fouls the membranes of a skid, and what takes it away. */
@Injectable()
export class Fouling {
  constructor(
    private readonly repository: FoulingRepository,
    private readonly intake: IntakeFacts,
  ) {}

  async read(caller: Caller, skidId: string): Promise<FoulingView> {
    const rows = await this.repository.read(caller, skidId);
    if (rows === undefined) throw new NotFound('skid', skidId);
    const { skid, cleans } = rows;
    const areaM2 = skid.areaM2 ?? 0;
    const days = rows.days.map(
      ({ filtrateM3, ...day }): FoulingDay => ({ ...day, loadM3PerM2: filtrateM3 === null || areaM2 === 0 ? null : filtrateM3 / areaM2 }),
    );
    const newest = skid.baselines?.commissioning;
    const newLmhBar = newest?.kind === 'baseline' ? newest.permeabilityLmhBar : null;
    const parts = newLmhBar === null ? [] : resistanceParts(days, cleans, newLmhBar, skid.referenceC);
    const recoveries = cleanRecoveries(days, cleans, newLmhBar);
    const doubts = caller.clientId === null ? await this.doubts(skid.no, rows.days.at(-1)?.day) : [];
    return viewOf(FoulingView, {
      referenceC: skid.referenceC,
      newLmhBar,
      newAssumed: newest?.kind === 'baseline' && newest.assumed,
      days: parts.map(({ day, ...part }) => viewOf(ResistanceDayView, { day, ...inTera(part) })),
      index: indexView(irreversibleFoulingIndex(days, cleans)),
      blocking: blockingView(blockingReading(days, cleans, newLmhBar === null ? null : newLmhBar * skid.limitFraction), recentLoad(days)),
      recoveries: recoveries.map(({ kind, day, beforeLmhBar, afterLmhBar, ofNew, ofLast }) =>
        viewOf(CleanRecoveryView, { kind, day, beforeLmhBar, afterLmhBar, ofNew, ofLast }),
      ),
      decline: declineInWords(recoveries),
      inferred: inferredCleans(days, cleans).map((one) => viewOf(InferredCleanView, one)),
      exposure: viewOf(OxidantExposureView, oxidantExposure(cleans.filter(({ chemical }) => isOxidant(chemical)))),
      doubts: doubts.map((doubt) => viewOf(InstrumentDoubtView, doubt)),
      remarks: remarksOf(skid, days, cleans),
    });
  }

  private async doubts(skidNo: number, lastDay: string | undefined) {
    if (lastDay === undefined) return [];
    const runs = await this.intake.cyclesOf(skidNo, subDays(new Date(`${lastDay}T00:00:00Z`), CHECKED_DAYS));
    return crossChecks(runs).map((doubt) => ({ ...doubt, signals: [...doubt.signals], makesDoubtful: [...doubt.makesDoubtful] }));
  }
}

function inTera({ clean, irreversible, cip, ceb, hydraulic }: Omit<ResistanceParts, 'day'>) {
  const of = (value: number | null) => (value === null ? null : value / TERA);
  return { clean: clean / TERA, irreversible: of(irreversible), cip: of(cip), ceb: of(ceb), hydraulic: of(hydraulic) };
}

function indexView(index: FoulingIndex): FoulingIndexView {
  if (index.kind === 'too-little-data') {
    const inWords = `Too little data: ${index.have} days with a start of runs and a volume since the latest chemical clean, ${index.need} are needed.`;
    return viewOf(FoulingIndexView, { perM2L: null, standardError: null, days: index.have, inWords });
  }
  const { perM2L, standardError, days, fromDay, loadLPerM2, throughMaintenance } = index;
  const rise = perM2L * loadLPerM2;
  const inWords = `Since ${fromDay}${throughMaintenance ? ', through maintenance cleans that come too often to tell between them' : ''}, over ${Math.round(loadLPerM2)} L/m2, the pressure just after hydraulic cleans changed by ${(100 * rise).toFixed(1)} %; an index compares at the same flux only.`;
  return viewOf(FoulingIndexView, { perM2L, standardError, days, inWords });
}

/** Filtrate per area of a day, L/m2: the middle of the last fortnight. */
const recentLoad = (days: readonly FoulingDay[]) => LITRES * (median(days.slice(-LOAD_DAYS), ({ loadM3PerM2 }) => loadM3PerM2) ?? 0);

function blockingView(reading: BlockingReading, perDay: number): BlockingView {
  if (reading.kind === 'too-little-data') {
    const inWords = `Too little data: ${reading.have} days with a start of runs and a volume since the latest recovery clean, ${reading.need} are needed.`;
    return viewOf(BlockingView, { told: false, inWords, laws: [] });
  }
  const { told, rise, days, fromDay, fits } = reading;
  const [closest] = fits;
  const risen = `Over ${days} days since ${fromDay} the pressure just after hydraulic cleans has changed by ${(100 * rise).toFixed(1)} %`;
  const inWords =
    told && closest !== undefined
      ? `${risen}, most closely as by ${NAMES[closest.law]}.`
      : `${risen}: no law is told from the others by more than the scatter of days. They part further on.`;
  return viewOf(BlockingView, {
    told,
    inWords,
    laws: fits.map(({ law, scatter, toLimitLPerM2: left }) =>
      viewOf(LawFitView, { law, scatter, daysToLimit: left === null || !(perDay > 0) ? null : left / perDay }),
    ),
  });
}

function remarksOf({ baselines }: FoulingSkidRow, days: readonly FoulingDay[], cleans: readonly FoulingCleanRow[]): string[] {
  const commissioning = baselines?.commissioning;
  const compared = baselines === null ? null : baselinesInWords(baselines);
  return [
    ...(commissioning?.kind === 'baseline'
      ? []
      : ['Nothing is split: no permeability of the new membranes is on record, and too few days to take one from the record.']),
    ...(commissioning?.kind === 'baseline' && commissioning.assumed ? ['The permeability when new is assumed: the best of the record.'] : []),
    ...(cleans.some(({ kind }) => kind === 'CIP') ? [] : ['Without a recovery clean on record nothing is known to be irreversible.']),
    ...(days.some(({ startLmhBar }) => startLmhBar !== null)
      ? []
      : ['The log says no pressure just after hydraulic cleans: what they take away is not known.']),
    ...(compared === null ? [] : [compared]),
  ];
}
