import { Injectable } from '@nestjs/common';
import { group } from 'd3-array';
import { Clock } from '../../app/index.js';
import { type CameTrue, REACHES, reachOf, type StretchFor, stretchOf } from '../core/record/calibration.js';
import { CalibrationRepository } from './calibration.repository.js';

/** Truths come by the day, and one more changes little. */
const HOLDS_MS = 6 * 3_600_000;
const LEAST_LIVES = 3;

/** By how much ranges are stretched, for each model and reach, learned from all forecasts that came true. Learned once for all skids, and again after six hours. */
@Injectable()
export class Calibrations {
  private learned: { readonly at: Date; readonly of: Promise<StretchFor> } | undefined;

  constructor(
    private readonly repository: CalibrationRepository,
    private readonly clock: Clock,
  ) {}

  async now(): Promise<StretchFor> {
    const now = this.clock.now();
    if (this.learned === undefined || Math.abs(now.getTime() - this.learned.at.getTime()) > HOLDS_MS) this.learned = { at: now, of: this.learn() };
    return this.learned.of.catch((error: unknown) => {
      this.learned = undefined; // the next one tries again
      throw error;
    });
  }

  /** A reach with too few lives goes by all reaches of its model. */
  private async learn(): Promise<StretchFor> {
    const rows = await this.repository.cameTrue();
    const stretches = new Map(
      [...group(rows, ({ model }) => model)].map(([model, own]) => {
        const pooled = stretchOf(own);
        const byReach = REACHES.map((_, reach) => {
          const near: CameTrue[] = own.filter(({ p50Days }) => p50Days !== null && reachOf(p50Days) === reach);
          return new Set(near.map(({ life }) => life)).size < LEAST_LIVES ? pooled : stretchOf(near);
        });
        return [model, byReach] as const;
      }),
    );
    return (model, p50Days) => stretches.get(model)?.[reachOf(p50Days)] ?? 1;
  }
}
