import { readFileSync } from 'node:fs';

/** Looks again and again until it is so; for what another process does. */
export async function until(fits: () => boolean, ms = 15_000): Promise<void> {
  for (const deadline = Date.now() + ms; !fits(); await new Promise((resolve) => setTimeout(resolve, 20))) {
    if (Date.now() > deadline) throw new Error('it did not come to pass in time');
  }
}

/** False for a zombie too: who adopts orphans here may never ask how they ended. */
export function isAlive(pid: number): boolean {
  try {
    process.kill(pid, 0);
    return process.platform !== 'linux' || !/\) Z /.test(readFileSync(`/proc/${pid}/stat`, 'utf8'));
  } catch {
    return false;
  }
}
