import { day, moment, number, wallDay } from '../../shared/format.js';
import { wallClockMs } from '../../shared/wall-clock.js';
import type { Block, Fact, ReportDocument } from './document.js';
import { type PeriodManner, withUnit } from './manner.js';
import type { PeriodSkid, SkidPeriod } from './period-data.js';
import { chemicalsSection } from './sections/chemicals.js';
import { cleansSection } from './sections/cleans.js';
import { conditionSection } from './sections/condition.js';
import { outlookSection } from './sections/outlook.js';
import { calibrationSection, integritySection } from './sections/proofs.js';
import { waterSection } from './sections/water.js';
import { partsSection, workSection } from './sections/work.js';
import { words } from './words.js';

/** The report of a period of one skid: how it is, what it did, what was done, what comes. Shared equipment filters nothing, so its part about water is left out. */
export function skidReport(data: SkidPeriod, manner: PeriodManner): ReportDocument {
  const { skid } = data;
  const { from, to } = manner.period;
  const filters = skid.kind === 'skid';
  return {
    title: words.periodTitle(skid.name, day(from), day(to)),
    place: words.running(skid.clientName, skid.siteName),
    running: words.running(skid.name, skid.siteName, words.period(day(from), day(to))),
    made: words.made(moment(manner.now, manner.timeZone)),
    madeAtMs: manner.now.getTime(),
    blocks: [
      ...standingBlocks(skid, manner),
      { kind: 'facts', facts: factsOf(skid, manner) },
      ...(filters ? [...conditionSection(data, manner), ...waterSection(data, manner, true), ...cleansSection(data, manner)] : []),
      ...workSection(data, manner),
      ...partsSection(data, manner),
      ...chemicalsSection(data, manner),
      ...(filters ? integritySection(data, manner) : []),
      ...calibrationSection(data, manner),
      ...outlookSection(data, manner),
    ],
  };
}

/** How the skid is today, in plain words, whatever the period. */
export function standingBlocks({ standing, reason, nextTask, nextOn }: PeriodSkid, { now, timeZone }: PeriodManner): Block[] {
  if (standing === null) return [{ kind: 'paragraph', text: words.standing.retired }];
  return [
    { kind: 'paragraph', text: words.standing.today(wallDay(wallClockMs(now.getTime(), timeZone))), tone: 'soft' },
    { kind: 'standing', standing, text: standing === 'no-data' || nextTask === null ? reason : words.standing.next(nextTask, day(nextOn), reason) },
  ];
}

function factsOf(skid: PeriodSkid, { units }: PeriodManner): Fact[] {
  const { facts } = words;
  const known: [string, string | null][] = [
    [facts.state, skid.serviceState],
    [facts.serialNumber, skid.serialNumber],
    [facts.water, skid.water || null],
    [facts.area, skid.areaM2 === null ? null : `${number(skid.areaM2)} m²`],
    [facts.ratedFlow, skid.ratedFlowM3h === null ? null : withUnit(skid.ratedFlowM3h, units.flow)],
    [facts.commissioned, skid.commissionedOn === null ? null : day(skid.commissionedOn)],
  ];
  return known.flatMap(([name, value]) => (value === null ? [] : [[name, value] as const]));
}
