import { Controller, Get, Param, Query, Res } from '@nestjs/common';
import { ApiOkResponse, ApiTags } from '@nestjs/swagger';
import type { FastifyReply } from 'fastify';
import { Allow, AllowSignedIn, type Caller, CurrentCaller } from '../app/index.js';
import { dispositionOf } from '../attachments/core/file-kinds.js';
import { JobReports } from './job-reports.js';
import { OrderReports } from './order-reports.js';
import { PeriodReports } from './period-reports.js';
import type { ReportFile } from './report-file.js';
import { ReportParams, ReportPeriodQuery, ReportUnitsQuery } from './reports.dto.js';

const PDF = 'application/pdf';
const ApiPdf = () => ApiOkResponse({ description: 'A tagged PDF', content: { [PDF]: { schema: { type: 'string', format: 'binary' } } } });

/** Reports to print and to keep. What stands in them is what the caller may read. */
@ApiTags('reports')
@Controller()
export class ReportsController {
  constructor(
    private readonly periods: PeriodReports,
    private readonly jobs: JobReports,
    private readonly orders: OrderReports,
  ) {}

  /** What a skid did in a period: condition, water, work, parts, chemicals, integrity, outlook */
  @Get('skids/:id/report.pdf')
  @AllowSignedIn()
  @ApiPdf()
  async ofSkid(@CurrentCaller() caller: Caller, @Param() { id }: ReportParams, @Query() query: ReportPeriodQuery, @Res() reply: FastifyReply): Promise<void> {
    send(reply, await this.periods.ofSkid(caller, id, query));
  }

  /** A period of all skids of a client: one table, then each skid in short */
  @Get('clients/:id/report.pdf')
  @AllowSignedIn()
  @ApiPdf()
  async ofClient(@CurrentCaller() caller: Caller, @Param() { id }: ReportParams, @Query() query: ReportPeriodQuery, @Res() reply: FastifyReply): Promise<void> {
    send(reply, await this.periods.ofClient(caller, id, query));
  }

  /** What was done in a job, step by step, with its photographs */
  @Get('jobs/:id/report.pdf')
  @AllowSignedIn()
  @ApiPdf()
  async ofJob(@CurrentCaller() caller: Caller, @Param() { id }: ReportParams, @Query() query: ReportUnitsQuery, @Res() reply: FastifyReply): Promise<void> {
    send(reply, await this.jobs.ofJob(caller, id, query));
  }

  /** A visit with its jobs */
  @Get('visits/:id/report.pdf')
  @AllowSignedIn()
  @ApiPdf()
  async ofVisit(@CurrentCaller() caller: Caller, @Param() { id }: ReportParams, @Query() query: ReportUnitsQuery, @Res() reply: FastifyReply): Promise<void> {
    send(reply, await this.jobs.ofVisit(caller, id, query));
  }

  /** A purchase order for the supplier */
  @Get('orders/:id/order.pdf')
  @Allow('manager', 'storekeeper')
  @ApiPdf()
  async ofOrder(@Param() { id }: ReportParams, @Res() reply: FastifyReply): Promise<void> {
    send(reply, await this.orders.of(id));
  }
}

function send(reply: FastifyReply, { name, pdf }: ReportFile): void {
  void reply.header('content-type', PDF).header('content-disposition', dispositionOf(PDF, name)).send(pdf);
}
