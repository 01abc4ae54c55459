import { day, moment, number } from '../../shared/format.js';
import type { Block, Cell, ReportDocument } from './document.js';
import type { PeriodManner } from './manner.js';
import type { SkidPeriod } from './period-data.js';
import { cleansSection, recoveryCleans } from './sections/cleans.js';
import { conditionSection } from './sections/condition.js';
import { outlookSection } from './sections/outlook.js';
import { integritySection } from './sections/proofs.js';
import { filtrateOf, waterSection } from './sections/water.js';
import { breakdownBlocks, partsSection } from './sections/work.js';
import { standingBlocks } from './skid-report.js';
import { words } from './words.js';

/** The report of a period for a client: all skids in one table, then each in short. The clocks are those of each skid's site. */
export function clientReport(clientName: string, skids: readonly SkidPeriod[], manner: PeriodManner): ReportDocument {
  const { from, to } = manner.period;
  const period = words.period(day(from), day(to));
  return {
    title: words.periodTitle(words.client.title, day(from), day(to)),
    place: clientName,
    running: words.running(clientName, period),
    made: words.made(moment(manner.now, manner.timeZone)),
    madeAtMs: manner.now.getTime(),
    blocks: [
      ...(skids.length === 0 ? [{ kind: 'paragraph', text: words.client.noSkids } as const] : summary(skids)),
      ...skids.flatMap((data) => inShort(data, { ...manner, timeZone: data.skid.timeZone })),
    ],
  };
}

function summary(skids: readonly SkidPeriod[]): Block[] {
  const { summary: title, skid, site, water, cips, tests, parts, work, breakdowns } = words.client;
  const numbers = [water, cips, work, parts, breakdowns].map((name) => ({ name, numeric: true }));
  return [
    { kind: 'heading', level: 2, text: title },
    {
      kind: 'table',
      caption: title,
      columns: [{ name: skid }, { name: site }, { name: words.outlook.standing }, ...numbers, { name: tests }],
      rows: skids.map((data): Cell[] => [
        data.skid.name,
        data.skid.siteName,
        data.skid.standing === null ? words.none : { standing: data.skid.standing },
        data.skid.kind === 'skid' ? number(filtrateOf(data.months)) : words.none,
        number(recoveryCleans(data.cleans).length),
        number(data.work.length),
        number(data.fittings.filter(({ fittedAt }) => fittedAt !== null).length),
        number(data.breakdowns.length),
        testsOf(data),
      ]),
    },
  ];
}

function testsOf({ tests }: SkidPeriod): string {
  const counted = tests.filter(({ outcome }) => outcome !== 'not counted');
  if (counted.length === 0) return words.none;
  return words.client.passed(number(counted.filter(({ outcome }) => outcome === 'passed').length), number(counted.length));
}

function inShort(data: SkidPeriod, manner: PeriodManner): Block[] {
  const filters = data.skid.kind === 'skid';
  return [
    { kind: 'part', place: data.skid.siteName, title: data.skid.name },
    ...standingBlocks(data.skid, manner),
    ...(filters ? [...conditionSection(data, manner), ...waterSection(data, manner, false), ...cleansSection(data, manner)] : []),
    ...partsSection(data, manner),
    ...breakdownBlocks(data.breakdowns, manner),
    ...(filters ? integritySection(data, manner) : []),
    ...outlookSection({ ...data, dues: data.dues.filter(({ standing }) => standing !== 'steady') }, manner),
  ];
}
