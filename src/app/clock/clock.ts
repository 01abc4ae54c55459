import { Injectable } from '@nestjs/common';

/** The present moment; tests set it. */
@Injectable()
export class Clock {
  now(): Date {
    return new Date();
  }
}
