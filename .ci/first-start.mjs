/**
 * Starts the service in a checkout where npm ci was run, asks the API what a manager asks first, stops it; twice, since the second
 * start finds everything built and loaded. Run as: node .ci/first-start.mjs <checkout>
 */
import { spawn } from 'node:child_process';
import { setTimeout as sleep } from 'node:timers/promises';

const FIRST_WITHIN_S = 90;
const STOP_WITHIN_MS = 20_000;

const [checkout] = process.argv.slice(2);
const port = 20_000 + (process.pid % 10_000);

function start() {
  const { DATABASE_URL, DATA_DIR, DEMO, ROLE, ...environment } = process.env;
  const startedAt = performance.now();
  // In a group of its own, so that a signal reaches npm and the service together, as Ctrl-C does.
  const service = spawn('npm', ['start'], { cwd: checkout, env: { ...environment, PORT: String(port) }, detached: true, stdio: ['ignore', 'pipe', 'inherit'] });
  const ended = new Promise((resolve) => service.once('exit', resolve));
  let said = '';
  const ready = new Promise((resolve, reject) => {
    service.stdout.setEncoding('utf8').on('data', (text) => {
      process.stdout.write(text);
      said += text;
      const address = /ready at (http\S+)/.exec(said)?.[1];
      if (address !== undefined) resolve(address);
    });
    void ended.then((code) => reject(new Error(`npm start ended with ${code} before it was ready`)));
  });
  const stop = async () => {
    process.kill(-(service.pid ?? Number.NaN), 'SIGINT');
    if ((await Promise.race([ended, sleep(STOP_WITHIN_MS, 'late')])) === 'late') throw new Error('npm start did not stop on SIGINT');
  };
  return { ready, stop, said: () => said, seconds: () => (performance.now() - startedAt) / 1000 };
}

async function ask(address, path, options = {}) {
  const answer = await fetch(address + path, options);
  if (!answer.ok) throw new Error(`${path} answered ${answer.status}: ${await answer.text()}`);
  return answer;
}

const first = start();
const address = await first.ready;
const [, email, password] = /manager +(\S+) +password (\S+)/.exec(first.said()) ?? [];
if (password === undefined) throw new Error('The first start printed no password of a manager');
const body = JSON.stringify({ email, password });
const signedIn = await ask(address, '/api/session', { method: 'POST', body, headers: { 'content-type': 'application/json', origin: address } });
const cookie = signedIn.headers.getSetCookie()[0].split(';')[0];
const fleet = await (await ask(address, '/api/fleet', { headers: { cookie } })).json();
if (!(fleet.total > 0)) throw new Error(`The fleet of the demo is empty: ${JSON.stringify(fleet)}`);
const page = await (await ask(address, '/')).text();
if (!page.includes('<div id=')) throw new Error('The first page is not served');
const firstSeconds = first.seconds();
await first.stop();

const second = start();
await ask(await second.ready, '/api/health');
const secondSeconds = second.seconds();
await second.stop();

console.log(`${fleet.total} units in the fleet; first start to the answer ${firstSeconds.toFixed(1)} s, second ${secondSeconds.toFixed(1)} s`);
if (firstSeconds > FIRST_WITHIN_S) throw new Error(`The first start took more than ${FIRST_WITHIN_S} s`);
