import { Injectable } from '@nestjs/common';
import type { SkidToRecompute } from '../../app/index.js';
import type { Day } from '../../shared/day.js';
import { endOfSet } from '../core/clogging/end-of-set.js';
import { scoreOf } from '../core/record/score.js';
import { type Truth, truthOf } from '../core/record/truth.js';
import type { OutlookDay, SetFitted } from '../core/skid/known-of-skid.js';
import { type PartEnd, ScoreRepository, type ScoreToStore, type StoredForecast } from './score.repository.js';

/** What the record of a skid says of its lives. */
export interface LivesOfSkid {
  readonly days: readonly OutlookDay[];
  readonly sets: readonly SetFitted[];
  readonly recoveryCleans: readonly string[];
}

/** A set with the pressure drops of its life. */
interface SetRead extends SetFitted {
  readonly values: readonly { readonly day: Day; readonly dpKpa: number }[];
}

interface LivesRead extends LivesOfSkid {
  readonly sets: readonly SetRead[];
}

/** Holds stored outlooks against what came. */
@Injectable()
export class ScoreOutlooks {
  constructor(private readonly repository: ScoreRepository) {}

  async ofSkid(skid: SkidToRecompute, lives: LivesOfSkid): Promise<void> {
    const forecasts = await this.repository.forecasts(skid.no);
    if (forecasts.length === 0) return;
    const ends = forecasts.some(({ limitKind }) => limitKind === 'life') ? await this.repository.partEnds(skid.no) : [];
    const read = { ...lives, sets: lives.sets.map((set) => ({ ...set, values: valuesOf(set, lives.days) })) };
    await this.repository.store(
      skid,
      forecasts.map((forecast) => toScore(forecast, read, ends)),
    );
  }
}

const valuesOf = ({ fittedOn, removedOn }: SetFitted, days: readonly OutlookDay[]) =>
  days.flatMap(({ day, cartridgeDpKpa: dpKpa }) => (dpKpa === null || day < fittedOn || (removedOn !== null && day >= removedOn) ? [] : [{ day, dpKpa }]));

function toScore(forecast: StoredForecast, lives: LivesRead, ends: readonly PartEnd[]): ScoreToStore {
  const { id, subject, partId, limitKind, originDay } = forecast;
  const truth = limitKind === 'life' ? truthOfPart(forecast, lives, ends) : truthOfSignal(forecast, lives);
  const score = scoreOf(forecast, truth);
  const begunOn = lives.recoveryCleans.findLast((day) => day <= originDay) ?? '';
  return {
    outlookId: id,
    life: limitKind === 'permeability' ? `membranes ${begunOn}` : `${subject} ${partId ?? ''}`,
    kind: score.kind,
    endedOn: truth.kind === 'open' ? null : truth.on,
    truthDays: score.kind === 'scored' ? score.truthDays : score.lastedDays,
    errorDays: score.kind === 'scored' ? score.errorDays : null,
    inside: score.kind === 'scored' ? score.inside : null,
    saidTooEarly: score.kind !== 'scored' && score.saidTooEarly,
  };
}

/** A part that failed has met its limit; one that was taken out for another reason ended before it. */
function truthOfPart({ subject, partId, originDay }: StoredForecast, { days }: LivesOfSkid, ends: readonly PartEnd[]): Truth {
  const end = ends.find((one) => one.positionId === subject && one.partId === partId && one.on >= originDay);
  if (end !== undefined) return { kind: end.failed ? 'met' : 'ended before', on: end.on };
  const last = days.at(-1)?.day ?? originDay;
  return { kind: 'open', until: last < originDay ? originDay : last };
}

function truthOfSignal({ subject, partId, limitKind, limitValue, originDay }: StoredForecast, { days, recoveryCleans, sets }: LivesRead): Truth {
  if (limitKind === 'permeability') {
    const endedOn = recoveryCleans.find((day) => day > originDay) ?? null;
    const after = days.flatMap(({ day, permeability }) => (permeability === null || day <= originDay ? [] : [{ day, value: permeability }]));
    return truthOf({ limit: { value: limitValue, met: 'at or below' }, after, endedOn, spent: null, originDay });
  }
  const set = sets.find((one) => one.positionId === subject && one.partId === partId);
  const after = (set?.values ?? []).flatMap(({ day, dpKpa }) => (day <= originDay ? [] : [{ day, value: dpKpa }]));
  const spent = set === undefined ? null : wasSpent(set, limitValue);
  return truthOf({ limit: { value: limitValue, met: 'at or above' }, after, endedOn: set?.removedOn ?? null, spent, originDay });
}

/** A set of cartridges ends as learning takes it to have ended: forecasts are judged by the lives that they were learned for. */
function wasSpent({ fittedOn, removedOn, removalReason: reason, values }: SetRead, limitKpa: number): boolean | null {
  return removedOn === null ? null : endOfSet({ fittedOn, removedOn, reason, limitKpa, values }) === 'limit';
}
