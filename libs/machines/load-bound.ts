import type { JobTimes } from './job-times.js';
import type { Layout } from './layout.js';

/** Steps of the ascent, and what the weights of all machines add up to in the exact count at its end. */
const STEPS = 300;
const WHOLE = 1_000_000;

/** For each machine the least that comes before, and after, any operation that it can do. */
function idleOf(layout: Layout, { heads, tails }: JobTimes): Float64Array {
  const { size, machines, from, machineOf } = layout;
  const head = new Float64Array(machines).fill(Infinity);
  const tail = new Float64Array(machines).fill(Infinity);
  for (let o = 0; o < size; o++)
    for (let way = from[o] ?? 0; way < (from[o + 1] ?? 0); way++) {
      const machine = machineOf[way] ?? 0;
      head[machine] = Math.min(head[machine] ?? 0, heads[o] ?? 0);
      tail[machine] = Math.min(tail[machine] ?? 0, tails[o] ?? 0);
    }
  return head.map((least, machine) => (least === Infinity ? 0 : least + (tail[machine] ?? 0)));
}

/** The weighted loads when each operation goes where its weighted duration is least; `loads` tells where. */
function weigh(layout: Layout, weights: Float64Array, idle: Float64Array, loads: Float64Array): number {
  const { size, from, machineOf, durationOf } = layout;
  let sum = 0;
  loads.set(idle);
  for (let machine = 0; machine < idle.length; machine++)
    sum += (weights[machine] ?? 0) * (idle[machine] ?? 0);
  for (let o = 0; o < size; o++) {
    let least = Infinity;
    let chosen = from[o] ?? 0;
    for (let way = chosen; way < (from[o + 1] ?? 0); way++) {
      const weighted = (weights[machineOf[way] ?? 0] ?? 0) * (durationOf[way] ?? 0);
      if (weighted < least) {
        least = weighted;
        chosen = way;
      }
    }
    sum += least;
    const machine = machineOf[chosen] ?? 0;
    loads[machine] = (loads[machine] ?? 0) + (durationOf[chosen] ?? 0);
  }
  return sum;
}

/** The same count with weights in whole numbers, free of rounding. */
function exactly(layout: Layout, weights: Float64Array, idle: Float64Array): number {
  const whole = weights.map((weight) => Math.floor(weight * WHOLE));
  const total = whole.reduce((sum, weight) => sum + weight, 0);
  if (total === 0) return 0;
  const sum = weigh(layout, whole, idle, new Float64Array(idle.length));
  return Number.isSafeInteger(sum) ? Math.ceil(sum / total) : 0;
}

/**
 * A bound from the load of the machines. Every machine is busy at the latest from what it must wait for at least until
 * what must still follow, so any weighted mean of the machines' loads is a bound, and so is the least that such a mean
 * can be over all choices of machines, which each operation makes for itself. The weights climb by subgradient steps
 * (Lagrangian relaxation; common practice, no source); whatever they are, the bound holds.
 */
export function loadBound(layout: Layout, times: JobTimes): number {
  const { machines } = layout;
  const idle = idleOf(layout, times);
  const loads = new Float64Array(machines);
  let weights = new Float64Array(machines).fill(1 / machines);
  let best = weights;
  let most = -Infinity;
  for (let step = 0; step < STEPS; step++) {
    const value = weigh(layout, weights, idle, loads);
    if (value > most) {
      most = value;
      best = weights;
    }
    const highest = Math.max(1, ...loads);
    const pace = 2 / (1 + step / 10);
    // A machine with more than its share gets dearer; multiplying keeps every weight positive.
    const next = weights.map(
      (weight, machine) => weight * Math.exp((pace * ((loads[machine] ?? 0) - value)) / highest),
    );
    const sum = next.reduce((total, weight) => total + weight, 0);
    weights = next.map((weight) => weight / sum);
  }
  return exactly(layout, best, idle);
}
