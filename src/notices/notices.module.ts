import { Module } from '@nestjs/common';
import { ChemicalsModule } from '../chemicals/index.js';
import { JobsModule } from '../jobs/index.js';
import { OrdersModule } from '../store/index.js';
import { AnswersToTellRepository } from './answers-to-tell.repository.js';
import { BreakdownsToTellRepository } from './breakdowns-to-tell.repository.js';
import { CalendarController } from './calendar.controller.js';
import { CalendarRepository } from './calendar.repository.js';
import { Calendars } from './calendars.js';
import { Choices } from './choices.js';
import { DigestDaysRepository } from './digest-days.repository.js';
import { DigestFactsRepository } from './digest-facts.repository.js';
import { FollowBreakdowns } from './follow-breakdowns.js';
import { MailRepository } from './mail.repository.js';
import { MailList } from './mail-list.js';
import { Mailer } from './mailer.js';
import { MakeDigests } from './make-digests.js';
import { NoticeRound } from './notice-round.js';
import { NoticesController } from './notices.controller.js';
import { OrderMail } from './order-mail.js';
import { PeopleToTellRepository } from './people-to-tell.repository.js';
import { RemindOfVisits } from './remind-of-visits.js';
import { SendMail } from './send-mail.js';
import { TellAtOnce } from './tell-at-once.js';
import { TellDeclines } from './tell-declines.js';

@Module({
  imports: [ChemicalsModule, JobsModule, OrdersModule],
  controllers: [NoticesController, CalendarController],
  providers: [
    AnswersToTellRepository,
    BreakdownsToTellRepository,
    CalendarRepository,
    Calendars,
    Choices,
    DigestDaysRepository,
    DigestFactsRepository,
    FollowBreakdowns,
    MailList,
    MailRepository,
    Mailer,
    MakeDigests,
    NoticeRound,
    OrderMail,
    PeopleToTellRepository,
    RemindOfVisits,
    SendMail,
    TellAtOnce,
    TellDeclines,
  ],
})
export class NoticesModule {}
