import { View, viewOf } from '../app/index.js';
import type { Problem, ProblemKind, ProblemReport } from './core/problem-list.js';
import type { LoadReport, PreviewRow } from './loading.js';
import type { LoadRow } from './repositories/loads.repository.js';

export class ProblemView extends View {
  readonly kind!: ProblemKind;
  /** Line of the file or number of the row, from 1; 0 for the whole */
  readonly line!: number;
  readonly column!: string | null;
  /** As it stood there, cut to 80 characters */
  readonly value!: string | null;
  readonly message!: string;
}

export class ProblemTotalView extends View {
  readonly kind!: ProblemKind;
  readonly message!: string;
  readonly count!: number;
}

export class PreviewFieldView extends View {
  readonly name!: string;
  /** As it was understood, in the unit beside it */
  readonly value!: string;
  readonly unit!: string | null;
}

export class PreviewRowView extends View {
  readonly line!: number;
  readonly at!: Date;
  readonly fields!: PreviewFieldView[];
}

/** What became of the rows of a load */
export class LoadReportView extends View {
  /** Null for a dry run, which writes nothing */
  readonly id!: string | null;
  /** samples, cycles, events, hand */
  readonly kind!: string;
  readonly name!: string;
  /** Rows that were read */
  readonly rows!: number;
  /** Values (of samples and readings by hand) or records that are new */
  readonly kept!: number;
  /** Already there with the same value */
  readonly known!: number;
  /** There with another value */
  readonly differing!: number;
  /** Of the differing ones, those that took the place of the earlier value */
  readonly replaced!: number;
  /** Kept, and left out of condition */
  readonly doubtful!: number;
  readonly refused!: number;
  /** How often each problem came */
  readonly totals!: ProblemTotalView[];
  /** The first cases of each problem, by line */
  readonly problems!: ProblemView[];
  /** The first rows as they were understood */
  readonly preview!: PreviewRowView[];
}

/** A load in the list of loads of a skid */
export class LoadView extends View {
  readonly id!: string;
  readonly no!: number;
  readonly kind!: string;
  readonly name!: string;
  readonly by!: string;
  readonly at!: Date;
  readonly kept!: number;
  readonly known!: number;
  readonly differing!: number;
  readonly replaced!: number;
  readonly doubtful!: number;
  readonly refused!: number;
}

/** A load with everything that was wrong with it */
export class LoadDetailView extends LoadView {
  readonly skidId!: string;
  /** Of the bytes as they were sent */
  readonly sha256!: string;
  readonly rows!: number;
  readonly totals!: ProblemTotalView[];
  readonly problems!: ProblemView[];
}

export class LoadPageView extends View {
  readonly items!: LoadView[];
  readonly next!: string | null;
}

export function toReportView(report: LoadReport): LoadReportView {
  const { id, kind, name, rows, kept, known, differing, replaced, doubtful, refused, problems, preview } = report;
  return viewOf(LoadReportView, {
    id,
    kind,
    name,
    rows,
    kept,
    known,
    differing,
    replaced,
    doubtful,
    refused,
    totals: problems.totals.map(toTotalView),
    problems: problems.listed.map(toProblemView),
    preview: preview.map(toPreviewView),
  });
}

export function toLoadView({ id, no, kind, name, by, at, kept, known, differing, replaced, doubtful, refused }: LoadRow): LoadView {
  return viewOf(LoadView, { id, no, kind, name, by, at, kept, known, differing, replaced, doubtful, refused });
}

export function toDetailView(load: LoadRow): LoadDetailView {
  const { id, no, skidId, kind, name, sha256, by, at, kept, known, differing, replaced, doubtful, refused } = load;
  const { rows = 0, totals = [], listed = [] } = load.problems as Partial<ProblemReport> & { readonly rows?: number };
  const [shownTotals, problems] = [totals.map(toTotalView), listed.map(toProblemView)];
  return viewOf(LoadDetailView, {
    id,
    no,
    skidId,
    kind,
    name,
    sha256,
    by,
    at,
    kept,
    known,
    differing,
    replaced,
    doubtful,
    refused,
    rows,
    totals: shownTotals,
    problems,
  });
}

const toProblemView = ({ kind, line, column, value, message }: Problem) => viewOf(ProblemView, { kind, line, column, value, message });
const toTotalView = ({ kind, message, count }: ProblemReport['totals'][number]) => viewOf(ProblemTotalView, { kind, message, count });
const toPreviewView = ({ line, at, fields }: PreviewRow) =>
  viewOf(PreviewRowView, { line, at, fields: fields.map(({ name, value, unit }) => viewOf(PreviewFieldView, { name, value: String(value), unit })) });
