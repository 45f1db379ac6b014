/** One operation that a machine must do: not before `head`, for `duration`, and `tail` must still follow its end. */
export interface MachineDemand {
  readonly head: number;
  readonly duration: number;
  readonly tail: number;
}

/**
 * The least time by which everything is over when one machine does all demands and may interrupt them: at any time
 * the one with the longest tail of those that may start (J. R. Jackson 1955; as a bound for the job shop J. Carlier
 * 1982; both from memory). No plan without interruption is shorter.
 */
export function oneMachineBound(demands: readonly MachineDemand[]): number {
  const byHead = [...demands].sort((a, b) => a.head - b.head);
  // What has begun or may begin, by falling tails, with what is left of it.
  const waiting: { left: number; readonly tail: number }[] = [];
  let time = 0;
  let over = 0;
  let next = 0;
  const admit = (): void => {
    for (let one = byHead[next]; one !== undefined && one.head <= time; one = byHead[++next]) {
      const { tail, duration } = one;
      const at = waiting.findIndex((other) => other.tail < tail);
      waiting.splice(at < 0 ? waiting.length : at, 0, { left: duration, tail });
    }
  };
  while (next < byHead.length || waiting.length > 0) {
    if (waiting.length === 0) time = Math.max(time, byHead[next]?.head ?? time);
    admit();
    const first = waiting[0];
    if (first === undefined) continue;
    const until = byHead[next]?.head ?? Infinity;
    const worked = Math.min(first.left, until - time);
    time += worked;
    first.left -= worked;
    if (first.left > 0) continue;
    over = Math.max(over, time + first.tail);
    waiting.shift();
  }
  return over;
}
