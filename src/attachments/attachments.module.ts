import { Module } from '@nestjs/common';
import { AttachmentsController } from './attachments.controller.js';
import { Attachments } from './attachments.js';
import { AttachmentsRepository } from './attachments.repository.js';

@Module({ controllers: [AttachmentsController], providers: [Attachments, AttachmentsRepository] })
export class AttachmentsModule {}
