import { StartProblem } from '../../start/start-problem.js';

/** What PostgreSQL's own programs said, as the sentence that the person who starts the service reads. */
export function engineProblem(said: string, data: string): StartProblem {
  if (isDiskFull(said)) return new StartProblem(`The disk with the data folder ${data} is full: make room, then start again.`);
  if (/Permission denied|EACCES|has wrong ownership/.test(said)) {
    return new StartProblem(
      `The data folder ${data} may not be written by the user that runs PostgreSQL: start as its owner, or set DATA_DIR to another folder.`,
    );
  }
  if (/database files are incompatible with server/.test(said)) {
    return new StartProblem(
      `The data folder ${data} was made by another major version of PostgreSQL: start with the Skidkeep that made it, or set DATA_DIR to an empty folder.`,
    );
  }
  return new StartProblem(`The PostgreSQL in ${data} did not start: ${lastLine(said)}`);
}

export function isDiskFull(said: string): boolean {
  return /No space left on device|ENOSPC/.test(said);
}

function lastLine(text: string): string {
  const lines = text.trim().split('\n');
  const fatal = lines.findLast((line) => /(FATAL|PANIC|ERROR|error):/.test(line));
  return fatal ?? lines.at(-1) ?? '';
}
