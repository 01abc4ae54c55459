import { Injectable } from '@nestjs/common';
import { type Caller, NotFound, type PageQuery, toPage, viewOf } from '../app/index.js';
import { localDay } from '../shared/local-day.js';
import { isSignalCode } from '../shared/signals.js';
import { toCalibrationView, toDoubtView } from './calibration-view.js';
import { CalibrationFedView, CalibrationsPageView, type CalibrationView, FedDueView, FedFigureView, FedOutlookView } from './calibrations.dto.js';
import { type CalibrationPage, CalibrationsRepository } from './calibrations.repository.js';
import { doubtInWords } from './core/doubt-in-words.js';
import { figuresFed } from './core/figures-fed.js';
import { FedRepository, type FedRows } from './fed.repository.js';

/** The record of calibrations, and what rests on the readings that they put in doubt. */
@Injectable()
export class Calibrations {
  constructor(
    private readonly repository: CalibrationsRepository,
    private readonly fedBy: FedRepository,
  ) {}

  async ofSkid(caller: Caller, skidId: string, query: PageQuery): Promise<CalibrationsPageView> {
    const page = await this.repository.list(caller, { skidId }, query);
    if (page === undefined) throw new NotFound('skid', skidId);
    return toPageView(page, query);
  }

  async ofPosition(caller: Caller, positionId: string, query: PageQuery): Promise<CalibrationsPageView> {
    const page = await this.repository.list(caller, { positionId }, query);
    if (page === undefined) throw new NotFound('position', positionId);
    return toPageView(page, query);
  }

  async read(caller: Caller, id: string): Promise<CalibrationView> {
    const found = await this.repository.find(caller, id);
    if (found === undefined) throw new NotFound('calibration', id);
    return toCalibrationView(found.row, found.doubt);
  }

  async fed(caller: Caller, id: string): Promise<CalibrationFedView> {
    const found = await this.repository.find(caller, id);
    if (found === undefined) throw new NotFound('calibration', id);
    const { row, doubt, place } = found;
    const figures = isSignalCode(row.signal) ? figuresFed(row.signal, place) : [];
    if (doubt === null) return nothingFed(id, 'The instrument was found in tolerance and left so: its readings stand.');
    const { fromAt, toAt, reason } = doubt;
    const day = (at: Date | null) => (at === null ? null : localDay(at, place.timeZone));
    const days = { fromDay: day(fromAt), toDay: day(toAt) };
    const rows = await this.fedBy.read(caller, { skidNo: place.skidNo, fromAt, toAt, ...days, figures });
    return viewOf(CalibrationFedView, {
      calibrationId: id,
      doubtful: toDoubtView(doubt),
      firstDay: rows.days.first,
      lastDay: rows.days.last,
      figures: figures.map((figure) => viewOf(FedFigureView, { figure, days: rows.days.counts[figure] ?? 0 })),
      outlooks: rows.outlooks.map((outlook) => viewOf(FedOutlookView, outlook)),
      dues: rows.dues.map((due) => viewOf(FedDueView, due)),
      summary: [doubtInWords({ reason, ...days }), ...inWords(rows, figures)],
    });
  }
}

function toPageView({ rows, doubts }: CalibrationPage, { limit }: PageQuery): CalibrationsPageView {
  const doubtOf = new Map(doubts.map((doubt) => [doubt.calibrationId, doubt]));
  return viewOf(
    CalibrationsPageView,
    toPage(
      rows,
      limit,
      (row) => toCalibrationView(row, doubtOf.get(row.id) ?? null),
      ({ at, id }) => [at.getTime(), id],
    ),
  );
}

function nothingFed(calibrationId: string, why: string): CalibrationFedView {
  return viewOf(CalibrationFedView, { calibrationId, doubtful: null, firstDay: null, lastDay: null, figures: [], outlooks: [], dues: [], summary: [why] });
}

function inWords({ outlooks, dues }: FedRows, figures: readonly string[]): string[] {
  if (figures.length === 0) return ['No figure of the condition rests on this signal.'];
  const count = (of: readonly unknown[], one: string, many: string) => `${of.length} ${of.length === 1 ? one : many}`;
  return [
    `On it rest ${figures.join(', ')} of these days, ${count(outlooks, 'forecast', 'forecasts')} and ${count(dues, 'due task', 'due tasks')}.`,
    'The readings are kept as they came; what was decided by them is for people to look at again.',
  ];
}
