import { createServer } from 'node:net';

/** Fails as listening later would: better before a demo is loaded than after. */
export async function checkPort(port: number, host: string): Promise<void> {
  await new Promise<void>((resolve, reject) => {
    const probe = createServer();
    probe.once('error', reject);
    probe.listen(port, host, () => probe.close(() => resolve()));
  });
}
