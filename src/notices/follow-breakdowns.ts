import { Injectable, type OnModuleInit } from '@nestjs/common';
import { runnerOf } from '../app/index.js';
import { JobHooks } from '../jobs/index.js';
import { BreakdownsToTellRepository } from './breakdowns-to-tell.repository.js';
import { NoticeRound } from './notice-round.js';

/** Asks for a round as soon as what cannot wait is reported, in the transaction of the report; the next minute would be late. */
@Injectable()
export class FollowBreakdowns implements OnModuleInit {
  constructor(
    private readonly hooks: JobHooks,
    private readonly breakdowns: BreakdownsToTellRepository,
    private readonly round: NoticeRound,
  ) {}

  onModuleInit(): void {
    this.hooks.onChanged(async (tx, { id }) => {
      if (await this.breakdowns.cannotWait(tx, id)) await this.round.soon(runnerOf(tx), id);
    });
  }
}
