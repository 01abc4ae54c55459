import { type ChildProcess, spawn } from 'node:child_process';
import { join } from 'node:path';

const MAIN = join(import.meta.dirname, '../../dist/src/main.js');

/** The service as a process of its own, started as `npm start` does after building. */
export class RunningService {
  private readonly child: ChildProcess;
  private readonly exited: Promise<number | null>;
  private said = '';

  constructor(settings: Readonly<Record<string, string>>) {
    const env = { PATH: process.env.PATH, HOST: '127.0.0.1', PORT: '0', DEMO: 'off', ...settings };
    this.child = spawn(process.execPath, [MAIN], { env, stdio: ['ignore', 'pipe', 'pipe'] });
    this.exited = new Promise((resolve) => this.child.once('close', resolve));
    for (const stream of [this.child.stdout, this.child.stderr]) stream?.setEncoding('utf8').on('data', (text: string) => (this.said += text));
  }

  get pid(): number {
    return this.child.pid ?? 0;
  }

  get output(): string {
    return this.said;
  }

  /** The address that it prints when it is ready; fails when it ends before. */
  async ready(): Promise<string> {
    return new Promise((resolve, reject) => {
      const look = (): void => {
        const address = /ready at (http\S+)/.exec(this.said)?.[1];
        if (address !== undefined) resolve(address);
      };
      this.child.stdout?.on('data', look);
      void this.exited.then((code) => reject(new Error(`ended with ${code}: ${this.said}`)));
      look();
    });
  }

  async end(): Promise<number | null> {
    return this.exited;
  }

  async signal(signal: NodeJS.Signals): Promise<number | null> {
    this.child.kill(signal);
    return this.exited;
  }
}
