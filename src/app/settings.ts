import { join } from 'node:path';
import { StartProblem } from './start/start-problem.js';

/** Every variable that the service takes from its environment; no other file of the service reads it. */
export const SETTING_NAMES = [
  'PORT',
  'HOST',
  'PUBLIC_URL',
  'TRUSTED_PROXY',
  'DATABASE_URL',
  'DATA_DIR',
  'DEMO',
  'ROLE',
  'SMTP_URL',
  'MAIL_FROM',
  'TRAVEL_TABLE_URL',
] as const;
type SettingName = (typeof SETTING_NAMES)[number];

export interface MailServer {
  readonly url: string;
  /** Whom the messages come from: an address, with a name before it or none */
  readonly from: string;
}

export interface Settings {
  readonly port: number;
  readonly host: string;
  /** The address that people type, where it is not the one that the service listens on; without a slash at its end */
  readonly publicUrl: string | undefined;
  /** Addresses of proxies whose X-Forwarded headers are believed */
  readonly trustedProxy: string;
  /** Undefined: the service runs a PostgreSQL of its own in `dataDir` */
  readonly databaseUrl: string | undefined;
  readonly dataDir: string;
  /** Undefined: loaded into an empty database of its own, not into a given one */
  readonly demo: 'on' | 'off' | undefined;
  /** Serve pages and API, work on the queue, or both */
  readonly role: 'web' | 'worker' | 'both';
  /** Undefined: notices are kept and shown, and nothing is mailed */
  readonly mail: MailServer | undefined;
  /** A service that knows the roads; undefined: nothing is asked, and ways are estimated by distance. Without a slash at its end */
  readonly travelTableUrl: string | undefined;
}

/** Throws one problem that names everything that is wrong. An empty value is the same as none. */
export function readSettings(environment: Readonly<Record<string, string | undefined>>, projectFolder: string): Settings {
  const problems: string[] = [];
  const read = (name: SettingName): string | undefined => environment[name]?.trim() || undefined;
  const refuse = (name: SettingName, wanted: string): void => void problems.push(`${name} must be ${wanted}, not "${read(name)}".`);
  const oneOf = <T extends string>(name: SettingName, values: readonly T[]): T | undefined => {
    const value = read(name);
    const known = values.find((candidate) => candidate === value);
    if (value !== undefined && known === undefined) refuse(name, `one of ${values.join(', ')}`);
    return known;
  };
  const url = (name: SettingName, protocols: readonly string[]): string | undefined => {
    const value = read(name);
    if (value === undefined || (URL.canParse(value) && protocols.includes(new URL(value).protocol))) return value;
    problems.push(`${name} must be an address that begins with ${protocols[0]}//.`); // the value may hold a password
    return undefined;
  };

  const mailServer = (): MailServer | undefined => {
    const [server, from] = [url('SMTP_URL', ['smtp:', 'smtps:']), read('MAIL_FROM')];
    const isFrom = from !== undefined && /^(?:[^<>@\s]+@[^<>@\s]+|[^<>@]*<[^<>@\s]+@[^<>@\s]+>)$/.test(from);
    if (from !== undefined && !isFrom) refuse('MAIL_FROM', 'an e-mail address, such as Skidkeep <service@company.example>');
    if (read('SMTP_URL') !== undefined && from === undefined) problems.push('SMTP_URL needs MAIL_FROM, the address that messages come from.');
    if (from !== undefined && read('SMTP_URL') === undefined) problems.push('MAIL_FROM needs SMTP_URL, the mail server that takes messages.');
    return server === undefined || from === undefined ? undefined : { url: server, from };
  };

  const port = Number(read('PORT') ?? '3000');
  if (!Number.isInteger(port) || port < 0 || port > 65_535) refuse('PORT', 'a whole number from 0 to 65535');
  const settings: Settings = {
    port,
    host: read('HOST') ?? '127.0.0.1',
    publicUrl: url('PUBLIC_URL', ['https:', 'http:'])?.replace(/\/+$/, ''),
    trustedProxy: read('TRUSTED_PROXY') ?? 'loopback',
    databaseUrl: url('DATABASE_URL', ['postgresql:', 'postgres:']),
    dataDir: read('DATA_DIR') ?? join(projectFolder, '.data'),
    demo: oneOf('DEMO', ['on', 'off']),
    role: oneOf('ROLE', ['web', 'worker', 'both']) ?? 'both',
    mail: mailServer(),
    travelTableUrl: url('TRAVEL_TABLE_URL', ['https:', 'http:'])?.replace(/\/+$/, ''),
  };
  if (settings.role !== 'both' && settings.databaseUrl === undefined) {
    problems.push(`ROLE=${settings.role} shares its work with other processes and needs DATABASE_URL, the database of all of them.`);
  }
  if (problems.length > 0) throw new StartProblem(problems.join('\n'));
  return settings;
}
