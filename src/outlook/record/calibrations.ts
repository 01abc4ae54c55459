import { Injectable } from '@nestjs/common';
import { Clock } from '../../app/index.js';
import type { StretchFor } from '../core/record/calibration.js';
import { stretchesOf } from '../core/record/stretches.js';
import { CalibrationRepository } from './calibration.repository.js';

/** Truths come by the day, and one more changes little. */
const HOLDS_MS = 6 * 3_600_000;

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
    if (this.learned === undefined || Math.abs(now.getTime() - this.learned.at.getTime()) > HOLDS_MS) this.learned = { at: now, of: this.learn(now) };
    return this.learned.of.catch((error: unknown) => {
      this.learned = undefined; // the next one tries again
      throw error;
    });
  }

  private async learn(now: Date): Promise<StretchFor> {
    return stretchesOf(await this.repository.cameTrue(now));
  }
}
