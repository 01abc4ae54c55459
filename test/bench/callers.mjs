/**
 * Calls an address over HTTP: 50 times to warm up, then 1,000 times, by so many callers at once. Times in ms.
 * Instead of an address, something that makes the next request to be sent: `{ path, body }`, by POST.
 */
import { Agent, request } from 'node:http';

const WARM_UP = 50;
const CALLS = 1000;

export async function timeCalls({ baseUrl, cookie }, asked, callers) {
  const agent = new Agent({ keepAlive: true, maxSockets: callers });
  const call = () =>
    new Promise((resolve, reject) => {
      const { path, body } = typeof asked === 'string' ? { path: asked } : asked();
      const json = body === undefined ? undefined : JSON.stringify(body);
      const headers = {
        cookie,
        ...(json === undefined ? {} : { origin: baseUrl, 'content-type': 'application/json', 'content-length': Buffer.byteLength(json) }),
      };
      const startedAt = performance.now();
      const sent = request(`${baseUrl}${path}`, { agent, headers, method: json === undefined ? 'GET' : 'POST' }, (answer) => {
        answer.resume();
        answer.once('end', () => (answer.statusCode < 300 ? resolve(performance.now() - startedAt) : reject(new Error(`${path}: ${answer.statusCode}`))));
      });
      sent.once('error', reject);
      sent.end(json);
    });
  for (let done = 0; done < WARM_UP; done += 1) await call();
  const times = [];
  let left = CALLS;
  const worker = async () => {
    while (left > 0) {
      left -= 1;
      times.push(await call());
    }
  };
  const startedAt = performance.now();
  await Promise.all(Array.from({ length: callers }, worker));
  const seconds = (performance.now() - startedAt) / 1000;
  agent.destroy();
  times.sort((a, b) => a - b);
  const at = (share) => Number(times[Math.min(times.length - 1, Math.floor(share * times.length))].toFixed(1));
  return { callers, medianMs: at(0.5), p99Ms: at(0.99), callsPerSecond: Math.round(CALLS / seconds) };
}

/** The run whose figure is the median of three. */
export async function medianOfThree(run, figure) {
  const runs = [];
  for (let count = 0; count < 3; count += 1) runs.push(await run());
  return runs.sort((a, b) => figure(a) - figure(b))[1];
}
