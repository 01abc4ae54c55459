/** A worker thread that does as it is told: answers, never answers, ends, or throws. */
import { parentPort, threadId } from 'node:worker_threads';

parentPort.on('message', (message) => {
  if (message === 'hang') while (true);
  if (message === 'end') process.exit(3);
  if (message === 'throw') throw new Error('on purpose');
  if (message === 'fault') parentPort.postMessage({ fault: 'it cannot be drawn' });
  else if (message !== 'silent') parentPort.postMessage({ result: { message, threadId } });
});
