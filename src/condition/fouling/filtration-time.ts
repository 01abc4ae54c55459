import { Injectable } from '@nestjs/common';
import { subDays } from 'date-fns';
import { Clock, NotFound, viewOf } from '../../app/index.js';
import { IntakeFacts } from '../../intake/index.js';
import { type FiltrationTime as Found, filtrationTimes } from '../core/fouling/filtration-time.js';
import { FiltrationTimeView, TimeOptionView } from './filtration-time.dto.js';
import { FoulingRepository } from './fouling.repository.js';

/** What is usual is read from so many days. */
const READ_DAYS = 60;

/** How long to filter between hydraulic cleans. */
@Injectable()
export class FiltrationTime {
  constructor(
    private readonly repository: FoulingRepository,
    private readonly intake: IntakeFacts,
    private readonly clock: Clock,
  ) {}

  async read(skidId: string, cleanM3: number | null): Promise<FiltrationTimeView> {
    const skidNo = await this.repository.skidNo(skidId);
    if (skidNo === undefined) throw new NotFound('skid', skidId);
    const runs = await this.intake.cyclesOf(skidNo, subDays(this.clock.now(), READ_DAYS));
    const found = filtrationTimes(runs, cleanM3);
    if (found.kind === 'too-little-data') {
      const inWords = `Too little data: ${found.have} runs with pressures at their start and end, ${found.need} are needed.`;
      return viewOf(FiltrationTimeView, { minutes: null, wished: null, inWords, options: [] });
    }
    const { minutes, wished, options } = found;
    return viewOf(FiltrationTimeView, { minutes, wished, inWords: inWords(found), options: options.map((option) => viewOf(TimeOptionView, { ...option })) });
  }
}

function inWords({ minutes, downMinutes, flowM3h, startKpa, riseKpaPerMinute, usualRiseKpaPerMinute, wished }: Extract<Found, { kind: 'times' }>): string {
  const [now, usual] = [minutes * riseKpaPerMinute, minutes * usualRiseKpaPerMinute];
  const seen = `In the last three days: ${Math.round(minutes)} minutes a run and ${downMinutes.toFixed(1)} until the next, ${flowM3h.toFixed(1)} m3/h, ${startKpa.toFixed(1)} kPa at the start. Within a run the pressure rises by ${now.toFixed(1)} kPa; with the water of the weeks before it would be ${usual.toFixed(1)} kPa`;
  if (wished === null) return `${seen}: the present time fits.`;
  const reckoned = `${Math.round(minutes)} x ${usual.toFixed(1)} / ${now.toFixed(1)}`;
  return `${seen}. After ${wished} minutes it has risen as much as usual (${reckoned}, not under 20): try shorter runs until the water is better.`;
}
