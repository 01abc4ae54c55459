import { Readable } from 'node:stream';
import type {} from '@fastify/multipart';
import { Body, Controller, Get, HttpCode, Param, ParseUUIDPipe, Post, Query, Req } from '@nestjs/common';
import { ApiBody, ApiConsumes, ApiTags } from '@nestjs/swagger';
import type { FastifyRequest } from 'fastify';
import { Allow, AllowSignedIn, type Caller, CurrentCaller, InvalidRequest, type KeyedRequest, PageQuery, RequestKey, TakesRequestKey } from '../app/index.js';
import { batchAsText } from './files/batch-as-text.js';
import { type LoadDetailView, type LoadPageView, type LoadReportView, toReportView } from './load.dto.js';
import { FileQuery, GatewayBatchDto } from './load-file.dto.js';
import { LoadFile } from './load-file.js';
import { Loads } from './loads.js';
import { LogProfiles } from './log-profiles.js';
import { SkidAccess } from './skid-access.js';

const FILE_BODY = { schema: { type: 'object', required: ['file'], properties: { file: { type: 'string', format: 'binary' } } } };

@ApiTags('loads')
@Controller()
export class LoadsController {
  constructor(
    private readonly access: SkidAccess,
    private readonly profiles: LogProfiles,
    private readonly files: LoadFile,
    private readonly loads: Loads,
  ) {}

  /** Reads a log file as a load would, reports every problem, and writes nothing */
  @Post('skids/:skidId/loads/dry-run')
  @HttpCode(200)
  @Allow('manager', 'technician')
  @ApiConsumes('multipart/form-data')
  @ApiBody(FILE_BODY)
  tryFile(
    @CurrentCaller() caller: Caller,
    @Param('skidId', ParseUUIDPipe) skidId: string,
    @Query() query: FileQuery,
    @Req() request: FastifyRequest,
  ): Promise<LoadReportView> {
    return this.read(caller, skidId, query, request, true);
  }

  /** Loads a log file; the same file again changes nothing */
  @Post('skids/:skidId/loads')
  @HttpCode(200)
  @Allow('manager', 'technician')
  @ApiConsumes('multipart/form-data')
  @ApiBody(FILE_BODY)
  loadFile(
    @CurrentCaller() caller: Caller,
    @Param('skidId', ParseUUIDPipe) skidId: string,
    @Query() query: FileQuery,
    @Req() request: FastifyRequest,
  ): Promise<LoadReportView> {
    return this.read(caller, skidId, query, request, false);
  }

  @Get('skids/:skidId/loads')
  @Allow('manager', 'storekeeper', 'technician')
  list(@CurrentCaller() caller: Caller, @Param('skidId', ParseUUIDPipe) skidId: string, @Query() query: PageQuery): Promise<LoadPageView> {
    return this.loads.list(caller, skidId, query);
  }

  @Get('loads/:loadId')
  @AllowSignedIn()
  one(@CurrentCaller() caller: Caller, @Param('loadId', ParseUUIDPipe) loadId: string): Promise<LoadDetailView> {
    return this.loads.read(caller, loadId);
  }

  /** Takes rows from a gateway, each once; the same key again gives the same answer */
  @Post('gateway/batches')
  @HttpCode(200)
  @Allow('gateway')
  @TakesRequestKey()
  async batch(@CurrentCaller() caller: Caller, @Body() batch: GatewayBatchDto, @RequestKey() idempotency: KeyedRequest): Promise<LoadReportView> {
    const { skidId, kind, profileId, replaceDiffering, rows } = batch;
    const skid = await this.access.toWrite(caller, skidId);
    const definition = profileId === undefined ? null : await this.profiles.definitionFor(skidId, profileId, kind);
    const file = Readable.from([Buffer.from(batchAsText(rows, definition))]);
    return toReportView(await this.files.load({ skid, caller, kind, definition, file, name: 'gateway batch', dryRun: false, replaceDiffering, idempotency }));
  }

  private async read(
    caller: Caller,
    skidId: string,
    { kind, profileId, replaceDiffering }: FileQuery,
    request: FastifyRequest,
    dryRun: boolean,
  ): Promise<LoadReportView> {
    const skid = await this.access.toWrite(caller, skidId);
    const definition = profileId === undefined ? null : await this.profiles.definitionFor(skidId, profileId, kind);
    if (!request.isMultipart()) throw new InvalidRequest('Send the file as multipart/form-data', [{ pointer: '#/file', message: 'There is no file' }]);
    const part = await request.file().catch((error: Error) => {
      throw new InvalidRequest(`The form cannot be read: ${error.message}`);
    });
    if (part === undefined) throw new InvalidRequest('The form has no file', [{ pointer: '#/file', message: 'There is no file' }]);
    try {
      return toReportView(await this.files.load({ skid, caller, kind, definition, file: part.file, name: nameOf(part.filename), dryRun, replaceDiffering }));
    } finally {
      part.file.resume(); // a sender hears the answer only when all that it has begun to send is taken
    }
  }
}

/** A form may send a file without a name. */
function nameOf(filename: string | undefined): string {
  const name = (filename ?? '').replaceAll('\0', '').trim().slice(0, 200);
  return name === '' ? 'file without a name' : name;
}
