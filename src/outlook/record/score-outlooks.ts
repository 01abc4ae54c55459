import { Injectable } from '@nestjs/common';
import type { SkidToRecompute } from '../../app/index.js';
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

/** Holds stored outlooks against what came. */
@Injectable()
export class ScoreOutlooks {
  constructor(private readonly repository: ScoreRepository) {}

  async ofSkid(skid: SkidToRecompute, lives: LivesOfSkid): Promise<void> {
    const forecasts = await this.repository.forecasts(skid.no);
    if (forecasts.length === 0) return;
    const ends = forecasts.some(({ limitKind }) => limitKind === 'life') ? await this.repository.partEnds(skid.no) : [];
    await this.repository.store(
      skid,
      forecasts.map((forecast) => toScore(forecast, lives, ends)),
    );
  }
}

function toScore(forecast: StoredForecast, lives: LivesOfSkid, ends: readonly PartEnd[]): ScoreToStore {
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

function truthOfSignal({ subject, partId, limitKind, limitValue, originDay }: StoredForecast, lives: LivesOfSkid): Truth {
  const isMembrane = limitKind === 'permeability';
  const endedOn = isMembrane
    ? (lives.recoveryCleans.find((day) => day > originDay) ?? null)
    : (lives.sets.find((set) => set.positionId === subject && set.partId === partId)?.removedOn ?? null);
  const after = lives.days.flatMap(({ day, permeability, cartridgeDpKpa }) => {
    const value = isMembrane ? permeability : cartridgeDpKpa;
    return value === null || day <= originDay ? [] : [{ day, value }];
  });
  return truthOf({ limit: { value: limitValue, met: isMembrane ? 'at or below' : 'at or above' }, after, endedOn, originDay });
}
