import { createHash } from 'node:crypto';
import { Injectable } from '@nestjs/common';
import { fileTypeFromBuffer } from 'file-type';
import { type Caller, Clock, InvalidRequest, NotFound, viewOf } from '../app/index.js';
import { type ArrivingFile, readUpTo } from './arriving-file.js';
import { type AttachmentQuery, type AttachmentsQuery, AttachmentsView, AttachmentView, type RecordKind } from './attachments.dto.js';
import { AttachmentTooLarge, IdTaken, NotKept, TooMany } from './attachments.errors.js';
import { type AttachmentRow, AttachmentsRepository, type Owner } from './attachments.repository.js';
import { judgeFile, type KeptType } from './core/file-kinds.js';

const MOST_MB = 8;
const MOST_BYTES = MOST_MB * 1024 ** 2;
/** A job with a photograph of every step has some thirty; nobody fills the database through one record. */
const MOST_OF_A_RECORD = 60;

/** Photographs and documents of records, kept in the database with them. */
@Injectable()
export class Attachments {
  constructor(
    private readonly repository: AttachmentsRepository,
    private readonly clock: Clock,
  ) {}

  /** Keeps a file under the id that its sender made; sent again it is the same one. */
  async keep(caller: Caller, id: string, query: AttachmentQuery, { name, content }: ArrivingFile): Promise<AttachmentView> {
    const { ofKind, ofId, place = '' } = query;
    const owner = await this.ownerFor(caller, ofKind, ofId);
    const bytes = await readWhole(content);
    const mediaType = await typeOf(bytes);
    const sha256 = createHash('sha256').update(bytes).digest('hex');
    const about = { ofKind, ofId, place, sha256 };
    const earlier = await this.repository.withId(id);
    if (earlier !== null) return sameOrRefused(earlier, about);
    if ((await this.repository.countOf(ofKind, ofId)) >= MOST_OF_A_RECORD) {
      throw new TooMany(`This ${ofKind} has ${MOST_OF_A_RECORD} files, as many as a record may have. Put further ones into a PDF, or make a follow-up job`);
    }
    await this.repository.keep({
      ...about,
      id,
      clientId: owner.clientId,
      skidId: owner.skidId,
      name: nameOf(query.name ?? name),
      mediaType,
      bytes: bytes.length,
      content: new Uint8Array(bytes),
      byId: caller.id,
      by: caller.name,
      at: this.clock.now(),
    });
    const kept = await this.repository.withId(id);
    if (kept === null) throw new Error(`Attachment ${id} was kept and is not there`);
    return sameOrRefused(kept, about); // the same id may have come twice at once
  }

  async list(caller: Caller, { ofKind, ofId }: AttachmentsQuery): Promise<AttachmentsView> {
    if ((await this.repository.owner(caller, ofKind, ofId)) === null) throw new NotFound(ofKind, ofId);
    return viewOf(AttachmentsView, { items: (await this.repository.list(caller, ofKind, ofId)).map(toView) });
  }

  async find(caller: Caller, id: string): Promise<AttachmentRow> {
    const attachment = await this.repository.find(caller, id);
    if (attachment === null) throw new NotFound('attachment', id);
    return attachment;
  }

  async content(caller: Caller, id: string): Promise<Buffer> {
    const content = await this.repository.content(caller, id);
    if (content === null) throw new NotFound('attachment', id);
    return Buffer.from(content.buffer, content.byteOffset, content.byteLength);
  }

  /** A client's person adds to the jobs of their own client, and of their own site where they are bound to one. */
  private async ownerFor(caller: Caller, kind: RecordKind, id: string): Promise<Owner> {
    const mayAdd = caller.role !== 'client' || kind === 'job';
    const owner = mayAdd ? await this.repository.owner(caller, kind, id) : null;
    if (owner === null || (caller.siteId !== null && owner.siteId !== caller.siteId)) throw new NotFound(kind, id);
    return owner;
  }
}

async function readWhole(content: ArrivingFile['content']): Promise<Buffer> {
  const file = await readUpTo(content, MOST_BYTES);
  if (file.kind === 'too large') {
    const seen = (file.seenBytes / 1024 ** 2).toFixed(1);
    const message = `has ${seen} MB; ${MOST_MB} MB are the most. The page makes photographs smaller by itself; make a PDF smaller, or send it in parts`;
    throw new AttachmentTooLarge('The file is too large, and was not kept', [{ pointer: '#/file', message }]);
  }
  if (file.bytes.length === 0) throw new InvalidRequest('The file is empty', [{ pointer: '#/file', message: 'has no content: choose it again' }]);
  return file.bytes;
}

async function typeOf(bytes: Buffer): Promise<KeptType> {
  const sniffed = await fileTypeFromBuffer(bytes).catch(() => undefined); // a file that ends in the middle of what its head announces
  const judged = judgeFile(sniffed?.mime);
  if (judged.kind === 'refused') throw new NotKept('Files of this kind are not kept', [{ pointer: '#/file', message: judged.why }]);
  return judged.mediaType;
}

function sameOrRefused(kept: AttachmentRow, { ofKind, ofId, place, sha256 }: Pick<AttachmentRow, 'ofKind' | 'ofId' | 'place' | 'sha256'>): AttachmentView {
  if (kept.ofKind === ofKind && kept.ofId === ofId && kept.place === place && kept.sha256 === sha256) return toView(kept);
  throw new IdTaken('This id was used for another file, or for another place. Send this one with an id of its own');
}

/** A form may send a file without a name. */
function nameOf(name: string | undefined): string {
  const clean = (name ?? '')
    .replace(/[\p{Cc}\p{Cs}]/gu, '')
    .trim()
    .slice(0, 200);
  return clean === '' ? 'file without a name' : clean;
}

function toView({ id, ofKind, ofId, place, name, mediaType, bytes, by, at }: AttachmentRow): AttachmentView {
  return viewOf(AttachmentView, { id, ofKind: ofKind as RecordKind, ofId, place, name, mediaType, bytes, by, at });
}
