import type { CutBound } from './cut-bound.js';
import { OPEN } from './partial-choice.js';
import type { PartialChoice } from './partial-choice.js';

const NONE = new Int32Array(0);
/** Slopes tried for one line. */
const TRIES = 6;

/**
 * What the bound would be with one more line in, without a new flow. The last flow has split each shared cost among its
 * users; what is left of these shares once that line has paid for its own costs are the weights of a plain knapsack for
 * the money left then. Unlike the flow, it sees which pairs of lines nobody can pay for together.
 */
export class Probe {
  /** Benefit for a cent more, at the last bound. */
  rate = 0;
  /** By open line: what it hands on to shared costs, and what it would add by itself. */
  private readonly share: Float64Array;
  private readonly alone: Float64Array;
  private readonly credit: Float64Array;
  private readonly overlap: Float64Array;
  private readonly benefits: Float64Array;
  private readonly weights: Float64Array;
  private count = 0;

  constructor(
    private readonly partial: PartialChoice,
    private readonly cut: CutBound,
  ) {
    const size = partial.shape.ids.length;
    this.share = new Float64Array(size);
    this.alone = new Float64Array(size);
    this.credit = new Float64Array(size);
    this.overlap = new Float64Array(size);
    this.benefits = new Float64Array(size);
    this.weights = new Float64Array(size);
  }

  /** Reads the last flow. */
  ready(): void {
    const { partial, cut, share, alone } = this;
    const { own, weight, costsOf, arcsOf } = partial.network;
    for (let line = 0; line < share.length; line++) {
      if (partial.state[line] !== OPEN) continue;
      const costs = costsOf[line] ?? NONE;
      const arcs = arcsOf[line] ?? NONE;
      let handed = own[line] ?? 0;
      let adds = handed;
      for (let k = 0; k < costs.length; k++) {
        const cost = costs[k] ?? 0;
        if (partial.uses[cost] !== 0) continue;
        handed += cut.flow[arcs[k] ?? 0] ?? 0;
        adds += weight[cost] ?? 0;
      }
      share[line] = handed;
      alone[line] = adds;
    }
  }

  /** The bound on the benefit of any completion with this line that costs no more than `limit`. */
  with(line: number, limit: number): number {
    const { partial } = this;
    const money = limit - partial.cost - (this.alone[line] ?? 0);
    this.list(line, money);
    return partial.benefit + (partial.shape.benefit[line] ?? 0) + this.fill(money);
  }

  /** The knapsack beside this line. */
  private list(line: number, money: number): void {
    const { partial, share, alone, credit, overlap, benefits, weights } = this;
    const { costsOf, usersOf, arcsInto, weight } = partial.network;
    credit.fill(0);
    overlap.fill(0);
    for (const cost of costsOf[line] ?? NONE) {
      if (partial.uses[cost] !== 0) continue;
      const users = usersOf[cost] ?? NONE;
      const arcs = arcsInto[cost] ?? NONE;
      const amount = weight[cost] ?? 0;
      for (let k = 0; k < users.length; k++) {
        const user = users[k] ?? 0;
        credit[user] = (credit[user] ?? 0) + (this.cut.flow[arcs[k] ?? 0] ?? 0);
        overlap[user] = (overlap[user] ?? 0) + amount;
      }
    }
    for (const rival of partial.shape.rivals[line] ?? []) overlap[rival] = -Infinity;
    overlap[line] = -Infinity;
    let count = 0;
    for (let other = 0; other < share.length; other++) {
      if (partial.state[other] !== OPEN) continue;
      if ((alone[other] ?? 0) - (overlap[other] ?? 0) > money + 1e-6) continue;
      benefits[count] = partial.shape.benefit[other] ?? 0;
      weights[count] = Math.max(0, (share[other] ?? 0) - (credit[other] ?? 0));
      count++;
    }
    this.count = count;
  }

  /** The knapsack, filled in fractions: its dual by rates that close in on the best. */
  private fill(money: number): number {
    const { benefits, weights, count } = this;
    let sum = 0;
    let heavy = 0;
    for (let k = 0; k < count; k++) {
      sum += benefits[k] ?? 0;
      heavy += weights[k] ?? 0;
    }
    this.rate = 0;
    if (heavy <= money) return sum;
    let least = sum;
    // Sets at two rates: one too heavy, one that fits; the next rate is where both are worth the same.
    let moreBenefit = sum;
    let moreWeight = heavy;
    let lessBenefit = 0;
    let lessWeight = 0;
    for (let tried = 0; tried < TRIES; tried++) {
      const rate = (moreBenefit - lessBenefit) / (moreWeight - lessWeight);
      let value = 0;
      let taken = 0;
      for (let k = 0; k < count; k++) {
        const one = benefits[k] ?? 0;
        const weight = weights[k] ?? 0;
        if (one > rate * weight) {
          value += one;
          taken += weight;
        }
      }
      const bound = value + rate * (money - taken);
      if (bound < least) {
        least = bound;
        this.rate = rate;
      }
      if (taken > money) {
        if (taken >= moreWeight) break;
        moreBenefit = value;
        moreWeight = taken;
      } else {
        if (taken <= lessWeight) break;
        lessBenefit = value;
        lessWeight = taken;
      }
    }
    return least;
  }
}
