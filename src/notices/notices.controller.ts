import { Body, Controller, Get, HttpCode, Param, ParseUUIDPipe, Post, Put, Query } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import { Allow, AllowSignedIn, type Caller, CurrentCaller, TakesVersion, VersionSeen } from '../app/index.js';
import { Choices } from './choices.js';
import { MailList } from './mail-list.js';
import { NoticeRound } from './notice-round.js';
import { NoticeChoiceDto, type NoticeChoiceView, type NoticesPageView, NoticesQuery } from './notices.dto.js';
import { OrderMail } from './order-mail.js';

@ApiTags('notices')
@Controller()
export class NoticesController {
  constructor(
    private readonly choices: Choices,
    private readonly mails: MailList,
    private readonly round: NoticeRound,
    private readonly orderMail: OrderMail,
  ) {}

  /** What the caller wants to be told by e-mail */
  @Get('me/notices')
  @AllowSignedIn()
  read(@CurrentCaller() caller: Caller): Promise<NoticeChoiceView> {
    return this.choices.read(caller);
  }

  @Put('me/notices')
  @AllowSignedIn()
  choose(@CurrentCaller() caller: Caller, @Body() choice: NoticeChoiceDto): Promise<NoticeChoiceView> {
    return this.choices.choose(caller, choice);
  }

  /** What was written to whom, the latest first, and why what was not sent was not */
  @Get('notices')
  @Allow('manager')
  list(@Query() query: NoticesQuery): Promise<NoticesPageView> {
    return this.mails.page(query);
  }

  /** A message to the caller, to see whether the mail server takes it: look at the list for what became of it */
  @Post('notices/trial')
  @Allow('manager')
  @HttpCode(202)
  async trial(@CurrentCaller() caller: Caller): Promise<void> {
    await this.mails.trial(caller);
    await this.round.soon();
  }

  /** Mails an approved order to its supplier, which sends it; of one that was sent, asks when it comes. What became of the message stands in the list of notices */
  @Post('orders/:id/mail')
  @Allow('manager', 'storekeeper')
  @HttpCode(202)
  @TakesVersion()
  mailOrder(@CurrentCaller() caller: Caller, @Param('id', ParseUUIDPipe) id: string, @VersionSeen() version: number): Promise<void> {
    return this.orderMail.send(caller, id, version);
  }
}
