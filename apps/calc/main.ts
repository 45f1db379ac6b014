import { text } from 'node:stream/consumers';
import { findComputation, runCalc, tellShape } from './run-calc.js';

const [name, option] = process.argv.slice(2);
// A wrong name is said at once; waiting for input first would look like a hang.
const isKnown = findComputation(name) !== undefined;
const outcome =
  isKnown && option === '--shape' ? tellShape(name) : runCalc(name, isKnown ? await text(process.stdin) : '');
// A reader that has seen enough (head) closes the pipe, which is no failure of ours.
process.stdout.on('error', (error: NodeJS.ErrnoException) => {
  if (error.code !== 'EPIPE') throw error;
});
process.stdout.write(outcome.stdout);
process.stderr.write(outcome.stderr);
// Set, not forced: a large answer must leave the pipe before the process does.
process.exitCode = outcome.exitCode;
