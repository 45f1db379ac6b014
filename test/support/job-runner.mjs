// A process that runs jobs, for tests that kill it. Prints one JSON object a line.
//   node job-runner.mjs CONNECTION_AS_JSON [TIMING_AS_JSON]
// The task `hold` prints that it began and then works until it is told to stop; `quick` ends at once.
import { pino } from 'pino';
import { QueueRunner, QueueTasks } from '../../dist/apps/server/platform/queue/index.js';

const say = (object) => process.stdout.write(`${JSON.stringify(object)}\n`);
// The end of the input says that whoever started this program is gone, killed perhaps.
process.stdin.resume().on('end', () => process.exit(4));

const tasks = new QueueTasks();
tasks.add('hold', async ({ id, attempt, signal }) => {
  say({ began: id, attempt });
  signal.addEventListener('abort', () => say({ aborted: id, attempt }));
  await new Promise((_resolve, reject) => {
    const keepAlive = setInterval(() => undefined, 1_000);
    signal.addEventListener('abort', () => {
      clearInterval(keepAlive);
      reject(signal.reason);
    });
  });
});
tasks.add('quick', async ({ id }) => say({ done: id }));

const [conn, timing = {}] = process.argv.slice(2).map((given) => JSON.parse(given));
const runner = new QueueRunner(conn, tasks, pino({ level: 'silent' }), timing);
runner.start();
say({ ready: true });
