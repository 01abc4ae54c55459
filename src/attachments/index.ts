export { takeFilesAsBody } from './arriving-file.js';
export { AttachmentsModule } from './attachments.module.js';
