import { Injectable } from '@nestjs/common';
import type { SkidToRecompute } from '../../app/index.js';
import { scoreOf } from '../core/record/score.js';
import { truthOf } from '../core/record/truth.js';
import type { OutlookDay, SetFitted } from '../outlook.repository.js';
import { ScoreRepository, type ScoreToStore, type StoredForecast } from './score.repository.js';

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
    await this.repository.store(
      skid,
      forecasts.map((forecast) => toScore(forecast, lives)),
    );
  }
}

function toScore(forecast: StoredForecast, lives: LivesOfSkid): ScoreToStore {
  const { id, subject, partId, limitKind, limitValue, originDay } = forecast;
  const isMembrane = limitKind === 'permeability';
  const endedOn = isMembrane
    ? (lives.recoveryCleans.find((day) => day > originDay) ?? null)
    : (lives.sets.find((set) => set.positionId === subject && set.partId === partId)?.removedOn ?? null);
  const after = lives.days.flatMap(({ day, permeability, cartridgeDpKpa }) => {
    const value = isMembrane ? permeability : cartridgeDpKpa;
    return value === null || day <= originDay ? [] : [{ day, value }];
  });
  const truth = truthOf({ limit: { value: limitValue, met: isMembrane ? 'at or below' : 'at or above' }, after, endedOn, originDay });
  const score = scoreOf(forecast, truth);
  const begunOn = isMembrane ? (lives.recoveryCleans.findLast((day) => day <= originDay) ?? '') : '';
  return {
    outlookId: id,
    life: isMembrane ? `membranes ${begunOn}` : `${subject} ${partId ?? ''}`,
    kind: score.kind,
    endedOn: truth.kind === 'open' ? null : truth.on,
    truthDays: score.kind === 'scored' ? score.truthDays : score.lastedDays,
    errorDays: score.kind === 'scored' ? score.errorDays : null,
    inside: score.kind === 'scored' ? score.inside : null,
    saidTooEarly: score.kind !== 'scored' && score.saidTooEarly,
  };
}
