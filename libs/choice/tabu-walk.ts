import type { Goal } from './goal.js';
import type { Network } from './network.js';
import { seeded } from '#libs/chance';
import type { Shape } from './shape.js';

const NONE = new Int32Array(0);
/** Moves without a better set before the walk shakes itself. */
const PATIENCE = 400;

export interface WalkTerms {
  readonly shape: Shape;
  readonly network: Network;
  readonly goal: Goal;
  readonly exact: (lines: readonly number[]) => number;
  readonly seed: number;
}

/**
 * Tabu search over sets that fit: add the line with the most benefit for its money, else swap one for one, and leave
 * what was just moved alone for a while. Proves nothing; gives the exact search something good to beat, and is what is
 * left where proof is out of reach. Goes on where it stopped.
 */
export class TabuWalk {
  private readonly inSet: Uint8Array;
  private readonly fixed: Uint8Array;
  private readonly uses: Int32Array;
  /** How many chosen lines rule a line out. */
  private readonly ruledOut: Int32Array;
  private readonly until: Float64Array;
  private readonly overlap: Float64Array;
  private readonly outside: Int32Array;
  private readonly adds: Float64Array;
  private readonly frees: Float64Array;
  private readonly random: () => number;
  private cost: number;
  private benefit = 0;
  private moves = 0;
  private idle = 0;
  private peak = -1;
  private thrift = 0.001;
  private readonly worth: number;

  constructor(private readonly terms: WalkTerms) {
    const { shape, network, seed } = terms;
    const lines = shape.ids.length;
    this.inSet = new Uint8Array(lines);
    this.fixed = new Uint8Array(lines);
    this.uses = new Int32Array(network.weight.length);
    this.ruledOut = new Int32Array(lines);
    this.until = new Float64Array(lines);
    this.overlap = new Float64Array(lines);
    this.outside = new Int32Array(lines);
    this.adds = new Float64Array(lines);
    this.frees = new Float64Array(lines);
    this.random = seeded(seed);
    this.cost = network.base;
    const total = [...network.own, ...network.weight].reduce((sum, amount) => sum + amount, 1);
    this.worth = shape.benefit.reduce((sum, one) => sum + one, 0) / total;
    for (const line of shape.must) this.put(line);
    for (const line of [...shape.must, ...shape.barred]) this.fixed[line] = 1;
  }

  /** Makes some moves among the sets that cost no more than `limit`. */
  walk(moves: number, limit: number): void {
    while (this.cost > limit && this.dropOne());
    if (this.cost > limit) return;
    this.offer();
    for (let made = 0; made < moves; made++) {
      this.moves++;
      this.measure();
      if (!this.addOne(limit) && !this.swapOne(limit) && !this.dropOne()) return;
      this.offer();
      if (this.benefit > this.peak) {
        this.peak = this.benefit;
        this.idle = 0;
      } else if (++this.idle > PATIENCE) this.shake();
    }
  }

  private offer(): void {
    const { goal, network, exact } = this.terms;
    if (!goal.wants(this.benefit, this.cost - network.slack)) return;
    const lines: number[] = [];
    for (let line = 0; line < this.inSet.length; line++) if (this.inSet[line] === 1) lines.push(line);
    // A set stands for itself and all that it needs, which costs nothing more.
    const whole = new Set(lines.flatMap((line) => [line, ...(this.terms.shape.needs[line] ?? [])]));
    const all = [...whole].sort((a, b) => a - b);
    const benefit = all.reduce((sum, line) => sum + (this.terms.shape.benefit[line] ?? 0), 0);
    const price = exact(all);
    if (goal.wants(benefit, price)) goal.offer({ lines: all, benefit, price });
  }

  private put(line: number): void {
    const { own, weight, costsOf } = this.terms.network;
    this.inSet[line] = 1;
    this.benefit += this.terms.shape.benefit[line] ?? 0;
    this.cost += own[line] ?? 0;
    for (const cost of costsOf[line] ?? NONE) {
      if (this.uses[cost] === 0) this.cost += weight[cost] ?? 0;
      this.uses[cost] = (this.uses[cost] ?? 0) + 1;
    }
    for (const rival of this.terms.shape.rivals[line] ?? [])
      this.ruledOut[rival] = (this.ruledOut[rival] ?? 0) + 1;
  }

  private take(line: number): void {
    const { own, weight, costsOf } = this.terms.network;
    this.inSet[line] = 0;
    this.benefit -= this.terms.shape.benefit[line] ?? 0;
    this.cost -= own[line] ?? 0;
    for (const cost of costsOf[line] ?? NONE) {
      const left = (this.uses[cost] ?? 0) - 1;
      this.uses[cost] = left;
      if (left === 0) this.cost -= weight[cost] ?? 0;
    }
    for (const rival of this.terms.shape.rivals[line] ?? [])
      this.ruledOut[rival] = (this.ruledOut[rival] ?? 0) - 1;
  }

  /** What each line outside would add, and what each line inside would free. */
  private measure(): void {
    const { own, weight, costsOf } = this.terms.network;
    for (let line = 0; line < this.inSet.length; line++) {
      const isIn = this.inSet[line] === 1;
      const lone = isIn ? 1 : 0;
      let sum = own[line] ?? 0;
      for (const cost of costsOf[line] ?? NONE) if (this.uses[cost] === lone) sum += weight[cost] ?? 0;
      if (isIn) this.frees[line] = sum;
      else this.adds[line] = sum;
    }
  }

  private isFree(line: number): boolean {
    return this.fixed[line] === 0 && (this.until[line] ?? 0) <= this.moves;
  }

  private addOne(limit: number): boolean {
    let best = -1;
    let most = 0;
    for (let line = 0; line < this.inSet.length; line++) {
      if (this.inSet[line] === 1 || this.ruledOut[line] !== 0 || !this.isFree(line)) continue;
      const adds = this.adds[line] ?? 0;
      if (this.cost + adds > limit) continue;
      const value = ((this.terms.shape.benefit[line] ?? 0) / (adds + 1)) * (0.9 + 0.2 * this.random());
      if (value > most) {
        most = value;
        best = line;
      }
    }
    if (best >= 0) this.put(best);
    return best >= 0;
  }

  private swapOne(limit: number): boolean {
    const { benefit, rivals } = this.terms.shape;
    const { outside, adds, overlap } = this;
    const count = this.listOutside();
    const price = this.thrift * this.worth;
    let bestOut = -1;
    let bestInto = -1;
    let most = -Infinity;
    for (let out = 0; out < this.inSet.length; out++) {
      if (this.inSet[out] === 0 || !this.isFree(out)) continue;
      this.overlapWith(out);
      const room = limit - this.cost + (this.frees[out] ?? 0);
      const base = price * (this.frees[out] ?? 0) - (benefit[out] ?? 0);
      for (let k = 0; k < count; k++) {
        const into = outside[k] ?? 0;
        const more = (adds[into] ?? 0) + (overlap[into] ?? 0);
        const value = base + (benefit[into] ?? 0) - price * more;
        if (more > room || value <= most) continue;
        if ((this.ruledOut[into] ?? 0) > (rivals[out]?.includes(into) === true ? 1 : 0)) continue;
        most = value;
        bestOut = out;
        bestInto = into;
      }
    }
    if (bestOut < 0) return false;
    this.take(bestOut);
    this.put(bestInto);
    this.until[bestOut] = this.moves + 5 + Math.floor(this.random() * 10);
    this.until[bestInto] = this.moves + 2 + Math.floor(this.random() * 4);
    return true;
  }

  /** Lists the lines that may come in; returns how many they are. */
  private listOutside(): number {
    let count = 0;
    for (let line = 0; line < this.inSet.length; line++)
      if (this.inSet[line] === 0 && this.isFree(line)) this.outside[count++] = line;
    return count;
  }

  /** What a line inside pays for alone, and a line outside uses too: it is not freed by swapping the two. */
  private overlapWith(line: number): void {
    const { weight, costsOf, usersOf } = this.terms.network;
    this.overlap.fill(0);
    for (const cost of costsOf[line] ?? NONE) {
      if (this.uses[cost] !== 1) continue;
      const amount = weight[cost] ?? 0;
      for (const user of usersOf[cost] ?? NONE) this.overlap[user] = (this.overlap[user] ?? 0) + amount;
    }
  }

  /** Takes a line out by chance; false when none may go. */
  private dropOne(): boolean {
    const inside: number[] = [];
    for (let line = 0; line < this.inSet.length; line++)
      if (this.inSet[line] === 1 && this.fixed[line] === 0) inside.push(line);
    const line = inside[Math.floor(this.random() * inside.length)];
    if (line === undefined) return false;
    this.take(line);
    this.until[line] = this.moves + 8;
    return true;
  }

  /** Takes some out, now and then all, and goes on from there with another liking for cheap sets. */
  private shake(): void {
    this.idle = 0;
    this.peak = -1;
    this.thrift = 0.3 * this.random() ** 3;
    const part = this.random() < 0.15 ? 1 : 0.15 + 0.5 * this.random();
    for (let line = 0; line < this.inSet.length; line++) {
      if (this.inSet[line] === 0 || this.fixed[line] === 1 || this.random() > part) continue;
      this.take(line);
      this.until[line] = this.moves + Math.floor(this.random() * 12);
    }
  }
}
