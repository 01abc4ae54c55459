import { Injectable } from '@nestjs/common';
import { type Caller, faultIn, viewOf } from '../app/index.js';
import { Mailer } from './mailer.js';
import { type NoticeChoiceDto, NoticeChoiceView } from './notices.dto.js';
import { PeopleToTellRepository } from './people-to-tell.repository.js';

/** What each person wants to be told. */
@Injectable()
export class Choices {
  constructor(
    private readonly repository: PeopleToTellRepository,
    private readonly mailer: Mailer,
  ) {}

  async read(caller: Caller): Promise<NoticeChoiceView> {
    const { digest, hour, timeZone, atOnce, chosen, email } = await this.repository.one(caller.id);
    const mailIsSetUp = this.mailer.from !== null;
    return viewOf(NoticeChoiceView, { digest, hour, timeZone, atOnce, mayBeToldAtOnce: mayBeToldAtOnce(caller), chosen, email, mailIsSetUp });
  }

  async choose(caller: Caller, choice: NoticeChoiceDto): Promise<NoticeChoiceView> {
    if (choice.atOnce && !mayBeToldAtOnce(caller)) {
      throw faultIn('atOnce', `only managers and technicians are told at once, since they can take it; a ${caller.role} chooses false`);
    }
    await this.repository.choose(caller.id, choice);
    return this.read(caller);
  }
}

const mayBeToldAtOnce = ({ role }: Caller): boolean => role === 'manager' || role === 'technician';
