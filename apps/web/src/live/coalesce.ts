/**
 * Turns a burst of calls into few runs: the first call starts a run after `waitMs`, calls meanwhile join it, and calls
 * that come while it runs cause exactly one more. Runs never overlap, so a slow answer cannot be overtaken.
 */
export function coalesce(
  run: () => Promise<unknown>,
  waitMs: number,
): { call: () => void; stop: () => void } {
  let timer: ReturnType<typeof setTimeout> | undefined;
  let running = false;
  let again = false;
  let stopped = false;

  function call(): void {
    if (stopped || timer !== undefined) return;
    if (running) {
      again = true;
      return;
    }
    timer = setTimeout(() => {
      timer = undefined;
      running = true;
      void run().finally(() => {
        running = false;
        if (again) {
          again = false;
          call();
        }
      });
    }, waitMs);
  }

  return {
    call,
    stop: () => {
      stopped = true;
      clearTimeout(timer);
    },
  };
}
