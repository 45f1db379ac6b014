import { runTour } from './run-tour.js';
import { findOrStartServer } from './server.js';

/** `npm run tour [-- --json]`: exit 0 only if every step happened and the sums agree. */
const asJson = process.argv.includes('--json');
const say = (text: string): void => {
  if (!asJson) process.stdout.write(`${text}\n`);
};

let server: Awaited<ReturnType<typeof findOrStartServer>> | undefined;
try {
  server = await findOrStartServer(process.env['BAYLEDGER_URL'], say);
  const result = await runTour(server.url, say);
  if (asJson) process.stdout.write(`${JSON.stringify(result)}\n`);
} catch (error) {
  process.stderr.write(`The tour stopped: ${error instanceof Error ? error.message : String(error)}\n`);
  process.exitCode = 1;
} finally {
  await server?.stop();
}
