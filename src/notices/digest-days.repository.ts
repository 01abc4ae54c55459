import { Injectable } from '@nestjs/common';
import { Database, type Reader } from '../app/index.js';
import type { Day } from '../shared/day.js';

@Injectable()
export class DigestDaysRepository {
  constructor(private readonly database: Database) {}

  /** Does the work of a person's day once, whatever the number of workers: false when another one has it. */
  once(personId: string, day: Day, work: (tx: Reader) => Promise<void>): Promise<boolean> {
    return this.database.write(async (tx) => {
      const taken = await tx.$executeRaw`
        INSERT INTO digest_day (person_id, day) VALUES (${personId}::uuid, ${day}::date)
        ON CONFLICT (person_id) DO UPDATE SET day = excluded.day WHERE digest_day.day < excluded.day`;
      if (taken > 0) await work(tx);
      return taken > 0;
    });
  }
}
