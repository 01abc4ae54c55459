import { relative } from 'node:path';

/** Why tests of a folder skip; elsewhere the names of the tests say it. */
const REASONS = [
  ['test/browser/', process.env.TEST_SKIP_BROWSER],
  ['test/open-data/', 'the open data sets do not lie beside the project'],
];

/**
 * Ends the run with "N passed, N failed, N skipped" alone on a line, and before it what was skipped and why.
 * A file that could not be loaded counts as one failure, and so does each check that failed before the tests.
 */
export default class CountReporter {
  constructor({ rootDir }) {
    this.rootDir = rootDir;
  }

  onRunComplete(_contexts, results) {
    const lines = results.testResults.flatMap(({ testFilePath, testResults }) => skippedIn(relative(this.rootDir, testFilePath), testResults));
    const failedChecks = JSON.parse(process.env.TEST_FAILED_CHECKS ?? '[]');
    if (failedChecks.length > 0) lines.push(`failed before the tests: ${failedChecks.join(', ')}`);
    const failed = results.numFailedTests + results.numRuntimeErrorTestSuites + failedChecks.length;
    const skipped = results.numPendingTests + results.numTodoTests;
    lines.push(`${results.numPassedTests} passed, ${failed} failed, ${skipped} skipped`);
    process.once('exit', () => console.log(lines.join('\n'))); // jest's own summary comes after this method
  }
}

function skippedIn(file, tests) {
  const skipped = tests.filter(({ status }) => status === 'pending' || status === 'todo');
  if (skipped.length === 0) return [];
  const reason = REASONS.find(([folder, why]) => file.startsWith(folder) && why)?.[1] ?? skipped.map(({ fullName }) => fullName).join('; ');
  return [`skipped: ${skipped.length} in ${file}: ${reason}`];
}
