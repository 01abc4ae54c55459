import { Injectable } from '@nestjs/common';
import { createTransport } from 'nodemailer';
import { ServiceSettings } from '../app/index.js';

const PATIENCE_MS = 20_000;

export interface MailToSend {
  readonly id: string;
  readonly to: string;
  readonly subject: string;
  readonly text: string;
}

export type SendResult =
  | { readonly kind: 'sent' }
  /** `address`: the server knows no such address. `message`: it does not take this one now. `server`: it takes nothing now */
  | { readonly kind: 'failed'; readonly fault: 'address' | 'message' | 'server'; readonly error: string };

/** Hands messages to the mail server of the settings. */
@Injectable()
export class Mailer {
  constructor(private readonly settings: ServiceSettings) {}

  /** Whom messages come from; null: no mail server is set up. */
  get from(): string | null {
    return this.settings.mail?.from ?? null;
  }

  async send({ id, to, subject, text }: MailToSend): Promise<SendResult> {
    const { mail } = this.settings;
    if (mail === undefined) return { kind: 'failed', fault: 'server', error: 'No mail server is set up' };
    const patience = { connectionTimeout: PATIENCE_MS, greetingTimeout: PATIENCE_MS, socketTimeout: PATIENCE_MS, dnsTimeout: PATIENCE_MS };
    const transport = createTransport({ ...patience, url: mail.url });
    const domain = /@([^\s<>@]+)>?$/.exec(mail.from)?.[1] ?? 'localhost';
    try {
      await transport.sendMail({
        from: mail.from,
        to: { name: '', address: to },
        subject,
        text,
        // The same however often it is tried: a message that the server took while the line broke is known again.
        messageId: `<${id}@${domain}>`,
        headers: { 'Auto-Submitted': 'auto-generated' },
        disableFileAccess: true,
        disableUrlAccess: true,
      });
      return { kind: 'sent' };
    } catch (error) {
      return failureOf(error as SmtpError);
    } finally {
      transport.close();
    }
  }
}

type SmtpError = Error & { readonly code?: string; readonly command?: string; readonly responseCode?: number };

function failureOf({ message, code, command, responseCode }: SmtpError): SendResult {
  const error = message.slice(0, 500);
  if (code !== 'EENVELOPE' && code !== 'EMESSAGE') return { kind: 'failed', fault: 'server', error };
  const forGood = (responseCode ?? 0) >= 500 && command === 'RCPT TO';
  return { kind: 'failed', fault: forGood ? 'address' : 'message', error };
}
