import { Body, Controller, Get, HttpCode, Param, ParseUUIDPipe, Post } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import { Allow, AllowSignedIn, type Caller, CurrentCaller, InvalidRequest, type KeyedRequest, RequestKey, TakesRequestKey } from '../app/index.js';
import { pasteColumns, readPaste } from './core/hand-paste.js';
import { EnterHandReadings, type WrittenEntry } from './enter-hand-readings.js';
import { HandPasteDto, type HandReadingDto, HandReadingsDto, type HandSheetView } from './hand.dto.js';
import { HandSheet } from './hand-sheet.js';
import { type LoadReportView, toReportView } from './load.dto.js';
import { SkidAccess } from './skid-access.js';

@ApiTags('readings by hand')
@Controller('skids/:skidId')
export class HandController {
  constructor(
    private readonly access: SkidAccess,
    private readonly hand: EnterHandReadings,
    private readonly sheet: HandSheet,
  ) {}

  /** What the gauges of the skid show, with the last value of each */
  @Get('hand-sheet')
  @AllowSignedIn()
  async handSheet(@CurrentCaller() caller: Caller, @Param('skidId', ParseUUIDPipe) skidId: string): Promise<HandSheetView> {
    return this.sheet.of(caller, skidId);
  }

  /** Enter readings; one that cannot be so refuses all of them */
  @Post('hand-readings')
  @HttpCode(200)
  @Allow('manager', 'technician', 'client')
  @TakesRequestKey()
  async enter(
    @CurrentCaller() caller: Caller,
    @Param('skidId', ParseUUIDPipe) skidId: string,
    @Body() body: HandReadingsDto,
    @RequestKey() idempotency: KeyedRequest,
  ): Promise<LoadReportView> {
    const skid = await this.access.toWrite(caller, skidId);
    const entries = body.readings.map((reading, i) => toEntry(reading, i + 1, caller.name));
    const { dryRun, replaceDiffering } = body;
    return toReportView(
      await this.hand.enter({
        skid,
        caller,
        name: 'readings by hand',
        timeFormat: 'iso',
        entries,
        dryRun,
        replaceDiffering,
        onFault: 'refuse all',
        idempotency,
      }),
    );
  }

  /** Enter a back-log copied from a sheet; lines that cannot be so are refused, the others kept */
  @Post('hand-readings/paste')
  @HttpCode(200)
  @Allow('manager', 'technician', 'client')
  @TakesRequestKey()
  async paste(
    @CurrentCaller() caller: Caller,
    @Param('skidId', ParseUUIDPipe) skidId: string,
    @Body() body: HandPasteDto,
    @RequestKey() idempotency: KeyedRequest,
  ): Promise<LoadReportView> {
    const skid = await this.access.toWrite(caller, skidId);
    const read = pasteColumns(body.columns);
    if (read.kind === 'bad-columns') {
      const fields = read.faults.map(({ column, message }) => ({ pointer: `#/columns/${column}/as`, message }));
      throw new InvalidRequest('The columns do not say what they are', fields);
    }
    const { text, timeFormat, decimal, headerLines, readBy, dryRun, replaceDiffering } = body;
    const entries = readPaste(text, { columns: read.columns, decimal, headerLines, readBy: readBy ?? caller.name });
    return toReportView(
      await this.hand.enter({ skid, caller, name: 'pasted readings', timeFormat, entries, dryRun, replaceDiffering, onFault: 'refuse the row', idempotency }),
    );
  }
}

function toEntry(reading: HandReadingDto, line: number, callerName: string): WrittenEntry {
  const { at, minutesSinceBackwash = null, note = '', readBy = callerName, values, meters, tanks } = reading;
  const entry = {
    minutesSinceBackwash,
    note,
    readBy,
    values: values.map(({ signal, value, unit, smallestDivision = null }, i) => ({
      signal,
      value,
      unit,
      smallestDivision,
      written: String(value),
      column: `values/${i}`,
    })),
    meters: meters.map(({ meterId, value }, i) => ({ meterId, value, column: `meters/${i}` })),
    tanks: tanks.map(({ tankId, levelM, levelCm, strengthGL = null }, i) => ({
      tankId,
      levelM: levelM ?? (levelCm ?? 0) / 100,
      strengthGL,
      readingErrorM: 0.005,
      column: `tanks/${i}`,
    })),
  };
  return { line, atText: at, entry, faults: [] };
}
