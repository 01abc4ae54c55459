import { Body, Controller, Get, HttpCode, Param, ParseUUIDPipe, Post, Put } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import { Allow, type Caller, CurrentCaller } from '../app/index.js';
import { ReadReport } from './read-report.js';
import { JobReportDto, type ReportAnswerView, type SentReportView, SettleDto } from './reports.dto.js';
import { SettleReport } from './settle-report.js';
import { TakeReport } from './take-report.js';

@ApiTags('jobs')
@Controller('jobs/:jobId/reports')
@Allow('manager', 'technician')
export class ReportsController {
  constructor(
    private readonly reports: TakeReport,
    private readonly reading: ReadReport,
    private readonly settling: SettleReport,
  ) {}

  /** Takes a job sheet in; sent again with the same id, it is stored once */
  @Post()
  take(@CurrentCaller() caller: Caller, @Param('jobId', ParseUUIDPipe) jobId: string, @Body() report: JobReportDto): Promise<ReportAnswerView> {
    return this.reports.take(caller, jobId, report);
  }

  /** A sheet as it was sent, to be corrected where it is held */
  @Get(':id')
  @Allow('manager')
  read(@Param('jobId', ParseUUIDPipe) jobId: string, @Param('id', ParseUUIDPipe) id: string): Promise<SentReportView> {
    return this.reading.read(jobId, id);
  }

  /** Corrects a sheet that is held */
  @Put(':id')
  correct(
    @CurrentCaller() caller: Caller,
    @Param('jobId', ParseUUIDPipe) jobId: string,
    @Param('id', ParseUUIDPipe) id: string,
    @Body() report: JobReportDto,
  ): Promise<ReportAnswerView> {
    return this.reports.correct(caller, jobId, id, report);
  }

  /** Settles whether a second sheet counts in the place of the first */
  @Post(':id/settle')
  @Allow('manager')
  @HttpCode(200)
  settle(
    @CurrentCaller() caller: Caller,
    @Param('jobId', ParseUUIDPipe) jobId: string,
    @Param('id', ParseUUIDPipe) id: string,
    @Body() input: SettleDto,
  ): Promise<ReportAnswerView> {
    return this.settling.settle(caller, jobId, id, input);
  }
}
