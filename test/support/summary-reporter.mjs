/**
 * Ends the output of a run with one line that a person and a script can both read: `N passed, N failed`, and
 * `, N skipped` when there are any. A suite that could not run counts as a failure, and so does a run in which no
 * test was executed: an empty run must never look like a green one.
 */
// A reporter is the one place where the tool insists on a default export.
export default class SummaryReporter {
  #nothingRan = false;

  onRunComplete(_contexts, results) {
    const executed = results.numPassedTests + results.numFailedTests;
    const broken =
      results.numRuntimeErrorTestSuites + (results.runExecError || results.wasInterrupted ? 1 : 0);
    this.#nothingRan = executed === 0;
    const failed = results.numFailedTests + broken;
    const skipped = results.numPendingTests + results.numTodoTests;
    const line = summaryLine(
      results.numPassedTests,
      this.#nothingRan ? Math.max(failed, 1) : failed,
      skipped,
    );
    // Other reporters and the teardown may still print; what is written on exit comes after all of them.
    process.once('exit', () => process.stdout.write(`${line}\n`));
  }

  /** An error here makes the run fail. */
  getLastError() {
    return this.#nothingRan ? new Error('No test was executed.') : undefined;
  }
}

export function summaryLine(passed, failed, skipped) {
  return `${passed} passed, ${failed} failed${skipped > 0 ? `, ${skipped} skipped` : ''}`;
}
