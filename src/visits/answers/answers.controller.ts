import { Body, Controller, Get, HttpCode, Param, ParseUUIDPipe, Post } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import { Allow, type Caller, CurrentCaller } from '../../app/index.js';
import { DeclineDto, ProposalDto, type ProposalView } from './answers.dto.js';
import { Answers } from './answers.js';

@ApiTags('visits')
@Controller()
export class AnswersController {
  constructor(private readonly answers: Answers) {}

  /** Everything that was proposed of a visit, the latest first */
  @Get('visits/:id/proposals')
  @Allow('manager')
  ofVisit(@Param('id', ParseUUIDPipe) id: string): Promise<ProposalView[]> {
    return this.answers.ofVisit(id);
  }

  /** Asks the client whether the day and time of a planned visit suit. What was asked before is asked no longer */
  @Post('visits/:id/proposals')
  @Allow('manager')
  propose(@CurrentCaller() caller: Caller, @Param('id', ParseUUIDPipe) id: string, @Body() { note = '' }: ProposalDto): Promise<ProposalView> {
    return this.answers.propose(caller, id, note);
  }

  /** Days to come that are asked now, with what was answered; a client reads their own */
  @Get('proposed-visits')
  @Allow('manager', 'client')
  open(@CurrentCaller() caller: Caller): Promise<ProposalView[]> {
    return this.answers.open(caller);
  }

  /** The day suits. It is a promise only once the department makes it one */
  @Post('proposed-visits/:id/confirm')
  @HttpCode(200)
  @Allow('client')
  confirm(@CurrentCaller() caller: Caller, @Param('id', ParseUUIDPipe) id: string): Promise<ProposalView> {
    return this.answers.confirm(caller, id);
  }

  /** The day does not suit, and which would */
  @Post('proposed-visits/:id/decline')
  @HttpCode(200)
  @Allow('client')
  decline(@CurrentCaller() caller: Caller, @Param('id', ParseUUIDPipe) id: string, @Body() input: DeclineDto): Promise<ProposalView> {
    return this.answers.decline(caller, id, input);
  }
}
