import { readConfig } from './platform/config.js';
import { startServer } from './start-server.js';
import { greet } from './demo/greet.js';

const began = process.hrtime.bigint();
try {
  const config = readConfig(process.env);
  const server = await startServer(config);
  const ms = Number((process.hrtime.bigint() - began) / 1_000_000n);
  await greet(server, config, ms);
  let stopping = false;
  for (const signal of ['SIGINT', 'SIGTERM'] as const) {
    process.on(signal, () => {
      if (stopping) return;
      stopping = true;
      void server.stop().then(
        () => process.exit(0),
        (error: unknown) => {
          console.error(error);
          process.exit(1);
        },
      );
    });
  }
} catch (error) {
  console.error(error instanceof Error ? `Bayledger could not start: ${error.message}` : error);
  process.exit(1);
}
