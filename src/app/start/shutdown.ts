import { setTimeout as sleep } from 'node:timers/promises';

const STEP_WITHIN_MS = 20_000;

/**
 * Closes what the service opened, the last first, so that the database stops when the service has let go of it.
 * More signals change nothing: on Ctrl-C the terminal sends one and npm passes on another, and leaving at the second would leave
 * the database running.
 */
export class Shutdown {
  private readonly steps: (() => Promise<unknown>)[] = [];
  private underWay: Promise<void> | undefined;

  constructor() {
    for (const signal of ['SIGINT', 'SIGTERM', 'SIGHUP'] as const) process.on(signal, () => void this.exit(0));
    process.on('uncaughtException', (error) => void this.fail(`Skidkeep stops: ${error.stack}`));
  }

  add(close: () => Promise<unknown>): void {
    this.steps.push(close);
  }

  /** Says why and leaves with 1; says nothing where the service is stopping anyway and errors are of that. */
  async fail(why: string): Promise<void> {
    if (this.underWay === undefined) console.error(why);
    await this.exit(1);
  }

  private async exit(code: number): Promise<void> {
    this.underWay ??= this.closeAll().then(() => process.exit(code));
    await this.underWay;
  }

  private async closeAll(): Promise<void> {
    for (const close of this.steps.reverse()) {
      const closed = close().catch((error: unknown) => console.error(error));
      await Promise.race([closed, sleep(STEP_WITHIN_MS)]);
    }
  }
}
