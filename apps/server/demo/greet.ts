import type { RunningServer } from '../start-server.js';

/** What a person sees when the server is up. */
export async function greet(server: RunningServer, ms: number): Promise<void> {
  process.stdout.write(`Bayledger is at ${server.url} (up after ${(ms / 1000).toFixed(1)} s)\n`);
  return Promise.resolve();
}
