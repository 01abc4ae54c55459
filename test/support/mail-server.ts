import { once } from 'node:events';
import type { AddressInfo } from 'node:net';
import { type ParsedMail, simpleParser } from 'mailparser';
import { SMTPServer } from 'smtp-server';

/** A mail server that takes everything for every address, except for those of people who are unknown. */
export class MailServer {
  readonly received: ParsedMail[] = [];
  private server: SMTPServer | undefined;
  port = 0;

  async start(): Promise<void> {
    const server = new SMTPServer({
      authOptional: true,
      disabledCommands: ['AUTH', 'STARTTLS'],
      disableReverseLookup: true,
      onRcptTo: ({ address }, _, answer) => {
        answer(address.startsWith('unknown') ? Object.assign(new Error('5.1.1 There is nobody of this name'), { responseCode: 550 }) : null);
      },
      onData: (stream, _, answer) => {
        simpleParser(stream).then((mail) => {
          this.received.push(mail);
          answer();
        }, answer);
      },
    });
    server.on('error', () => {}); // a sender that hangs up
    server.listen(this.port, '127.0.0.1');
    await once(server.server, 'listening');
    this.port = (server.server.address() as AddressInfo).port;
    this.server = server;
  }

  async stop(): Promise<void> {
    const { server } = this;
    this.server = undefined;
    if (server !== undefined) await new Promise<void>((done) => server.close(() => done()));
  }

  get url(): string {
    return `smtp://127.0.0.1:${this.port}`;
  }

  /** Takes out what came since it was last asked. */
  taken(): ParsedMail[] {
    return this.received.splice(0);
  }
}

export const toOf = ({ to }: ParsedMail): string => (Array.isArray(to) ? to : [to]).map((address) => address?.text).join();
