import { Body, Controller, Param, ParseUUIDPipe, Post } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import { Allow, type Caller, CurrentCaller, type KeyedRequest, RequestKey, TakesRequestKey } from '../app/index.js';
import { Ask } from './breakdown-ask.js';
import type { AskedView } from './breakdowns.dto.js';
import { RequestNotes } from './request-notes.js';
import { RequestDto, RequestNoteDto, type RequestNoteView } from './requests.dto.js';

/** What clients ask for, or the department on their behalf. */
@ApiTags('requests')
@Controller('requests')
export class RequestsController {
  constructor(
    private readonly ask: Ask,
    private readonly notes: RequestNotes,
  ) {}

  @Post()
  @Allow('manager', 'storekeeper', 'technician', 'client')
  @TakesRequestKey()
  raise(@CurrentCaller() caller: Caller, @RequestKey() key: KeyedRequest, @Body() input: RequestDto): Promise<AskedView> {
    return this.ask.for(caller, key, input, input.severity ?? null);
  }

  @Post(':jobId/notes')
  @Allow('manager', 'storekeeper', 'technician', 'client')
  @TakesRequestKey()
  addNote(
    @CurrentCaller() caller: Caller,
    @Param('jobId', ParseUUIDPipe) jobId: string,
    @RequestKey() key: KeyedRequest,
    @Body() { note }: RequestNoteDto,
  ): Promise<RequestNoteView> {
    return this.notes.add(caller, key, jobId, note);
  }
}
