import { Controller, Get, Headers, Param, ParseUUIDPipe, Put, Query, Req, Res } from '@nestjs/common';
import { ApiBody, ApiConsumes, ApiOkResponse, ApiTags } from '@nestjs/swagger';
import type { FastifyReply, FastifyRequest } from 'fastify';
import { Allow, AllowSignedIn, type Caller, CurrentCaller } from '../app/index.js';
import { arrivingFile } from './arriving-file.js';
import { AttachmentQuery, AttachmentsQuery, type AttachmentsView, type AttachmentView } from './attachments.dto.js';
import { Attachments } from './attachments.js';
import { dispositionOf } from './core/file-kinds.js';

const FILE_BODY = { schema: { type: 'object', required: ['file'], properties: { file: { type: 'string', format: 'binary' } } } };

/** Whatever a file holds, it runs nothing and fetches nothing when it is opened. */
const INERT = "sandbox; default-src 'none'; style-src 'unsafe-inline'";

@ApiTags('attachments')
@Controller('attachments')
export class AttachmentsController {
  constructor(private readonly attachments: Attachments) {}

  /** Keeps a photograph (JPEG, PNG, WebP) or a PDF of at most 8 MB under an id of the sender's making. The same again changes nothing. The body may also be the file itself */
  @Put(':id')
  @Allow('manager', 'storekeeper', 'technician', 'client')
  @ApiConsumes('multipart/form-data')
  @ApiBody(FILE_BODY)
  async keep(
    @CurrentCaller() caller: Caller,
    @Param('id', ParseUUIDPipe) id: string,
    @Query() query: AttachmentQuery,
    @Req() request: FastifyRequest,
  ): Promise<AttachmentView> {
    const file = await arrivingFile(request);
    try {
      return await this.attachments.keep(caller, id, query, file);
    } finally {
      file.content.resume(); // a sender hears the answer only when all that it has begun to send is taken
    }
  }

  /** The files of a record, the oldest first */
  @Get()
  @AllowSignedIn()
  list(@CurrentCaller() caller: Caller, @Query() query: AttachmentsQuery): Promise<AttachmentsView> {
    return this.attachments.list(caller, query);
  }

  /** The file itself */
  @Get(':id')
  @AllowSignedIn()
  @ApiOkResponse({ content: { 'image/*': {}, 'application/pdf': {} } })
  async read(
    @CurrentCaller() caller: Caller,
    @Param('id', ParseUUIDPipe) id: string,
    @Headers('if-none-match') seen: string | undefined,
    @Res() reply: FastifyReply,
  ): Promise<void> {
    const { sha256, mediaType, name } = await this.attachments.find(caller, id);
    const etag = `"${sha256}"`;
    // Kept by the caller's own browser alone, and for good: what lies under an id never changes.
    void reply.header('etag', etag).header('cache-control', 'private, max-age=31536000, immutable');
    if (seen?.includes(etag)) return void reply.status(304).send();
    const content = await this.attachments.content(caller, id);
    void reply
      .header('content-type', mediaType)
      .header('content-disposition', dispositionOf(mediaType, name))
      .header('content-security-policy', INERT)
      .header('cross-origin-resource-policy', 'same-origin')
      .send(content);
  }
}
