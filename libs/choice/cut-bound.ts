import { OPEN } from './partial-choice.js';
import type { PartialChoice } from './partial-choice.js';

const NONE = new Int32Array(0);
/** Part of all shared costs below which a flow is nothing. Stopping early only makes a bound weaker, never wrong. */
const NOTHING = 1e-6;

/**
 * How much benefit the open lines could add, by a price on money: at λ benefit per cent, every line brings its benefit / λ
 * cents, pays its own costs from them and hands what is left to the shared costs that it uses. A shared cost takes no more
 * than itself. What nobody can hand on is worth more than it costs, so
 *
 *   benefit ≤ benefit so far + λ × (money left + what could not be handed on).
 *
 * Handing on as much as possible is a maximum flow; the lines and costs from which nothing more can flow are the set that
 * is best at this λ without a budget (maximum closure: Picard 1976; over λ: Gallo, Grigoriadis and Tarjan 1989; both from
 * memory). The flow is kept from node to node of the search and mended, not built anew.
 */
export class CutBound {
  /** The λ of the last flow. */
  lambda = 0;
  readonly flow: Float64Array;
  /** By open line: what could not be handed on; below zero, what the line lacks for its own costs. */
  readonly excess: Float64Array;
  /** The set that is best at this λ: its benefit and cost, open lines and unpaid costs only. */
  bestBenefit = 0;
  bestCost = 0;
  private readonly filled: Float64Array;
  private readonly lineSeen: Int32Array;
  private readonly costSeen: Int32Array;
  private readonly nothing: number;
  private pass = 0;

  constructor(private readonly partial: PartialChoice) {
    const { network, shape } = partial;
    this.flow = new Float64Array(network.arcs);
    this.excess = new Float64Array(shape.ids.length);
    this.filled = new Float64Array(network.weight.length);
    this.nothing = Math.max(1e-7, NOTHING * network.weight.reduce((sum, one) => sum + one, 0));
    this.lineSeen = new Int32Array(shape.ids.length);
    this.costSeen = new Int32Array(network.weight.length);
  }

  /** Whether an open line belongs to the set that is best at the last λ. */
  isBest(line: number): boolean {
    return this.lineSeen[line] === this.pass;
  }

  /** The bound on the benefit of any completion that costs no more than `limit`. */
  at(lambda: number, limit: number): number {
    this.lambda = lambda;
    this.mendLines();
    this.mendCosts();
    const left = this.handOn();
    this.readBest();
    return this.partial.benefit + lambda * (limit - this.partial.cost + left);
  }

  /** Takes the last flow to the new λ and to what is open now: no line hands on more than it has. */
  private mendLines(): void {
    const { flow, excess, filled, partial, lambda } = this;
    const { own, costsOf, arcsOf } = partial.network;
    filled.fill(0);
    for (let line = 0; line < excess.length; line++) {
      const costs = costsOf[line] ?? NONE;
      const arcs = arcsOf[line] ?? NONE;
      const isOpen = partial.state[line] === OPEN;
      const has = isOpen ? (partial.shape.benefit[line] ?? 0) / lambda - (own[line] ?? 0) : 0;
      let handed = 0;
      for (let k = 0; k < arcs.length; k++) {
        const arc = arcs[k] ?? 0;
        if (has <= 0 || partial.uses[costs[k] ?? 0] !== 0) flow[arc] = 0;
        else handed += flow[arc] ?? 0;
      }
      const kept = handed > has && handed > 0 ? Math.max(0, has) / handed : 1;
      for (let k = 0; k < arcs.length; k++) {
        const arc = arcs[k] ?? 0;
        const amount = (flow[arc] ?? 0) * kept;
        flow[arc] = amount;
        const cost = costs[k] ?? 0;
        filled[cost] = (filled[cost] ?? 0) + amount;
      }
      excess[line] = has - handed * kept;
    }
  }

  /** No cost takes more than itself. */
  private mendCosts(): void {
    const { flow, excess, filled } = this;
    const { weight, usersOf, arcsInto } = this.partial.network;
    for (let cost = 0; cost < filled.length; cost++) {
      const total = filled[cost] ?? 0;
      const room = weight[cost] ?? 0;
      if (total <= room) continue;
      const users = usersOf[cost] ?? NONE;
      const arcs = arcsInto[cost] ?? NONE;
      for (let k = 0; k < arcs.length; k++) {
        const arc = arcs[k] ?? 0;
        const back = (flow[arc] ?? 0) * (1 - room / total);
        const line = users[k] ?? 0;
        flow[arc] = (flow[arc] ?? 0) - back;
        excess[line] = (excess[line] ?? 0) + back;
      }
      filled[cost] = room;
    }
  }

  /** Hands on whatever can be; returns what is left over. A pass without success has seen exactly the best set. */
  private handOn(): number {
    const { excess, lineSeen, partial } = this;
    for (;;) {
      this.pass++;
      let moved = false;
      let left = 0;
      for (let line = 0; line < excess.length; line++) {
        if (partial.state[line] !== OPEN) continue;
        while ((excess[line] ?? 0) > this.nothing && lineSeen[line] !== this.pass) {
          const amount = this.push(line, excess[line] ?? 0);
          excess[line] = (excess[line] ?? 0) - amount;
          if (amount > 0) moved = true;
          else break;
        }
        if ((excess[line] ?? 0) > 0) left += excess[line] ?? 0;
      }
      if (!moved) return left;
    }
  }

  /**
   * Moves up to `amount` from a line to costs with room, by way of other lines that then hand on elsewhere; returns what was
   * moved. A line that could not hand on all of it is not tried again in this pass.
   */
  private push(line: number, amount: number): number {
    const { flow, filled, costSeen, lineSeen, partial } = this;
    const { weight } = partial.network;
    const costs = partial.network.costsOf[line] ?? NONE;
    const arcs = partial.network.arcsOf[line] ?? NONE;
    lineSeen[line] = this.pass;
    let left = amount;
    for (let k = 0; k < costs.length; k++) {
      const cost = costs[k] ?? 0;
      const room = (weight[cost] ?? 0) - (filled[cost] ?? 0);
      if (room <= this.nothing || partial.uses[cost] !== 0) continue;
      const moved = Math.min(room, left);
      const arc = arcs[k] ?? 0;
      flow[arc] = (flow[arc] ?? 0) + moved;
      filled[cost] = (filled[cost] ?? 0) + moved;
      left -= moved;
      if (left <= this.nothing) break;
    }
    for (let k = 0; k < costs.length && left > this.nothing; k++) {
      const cost = costs[k] ?? 0;
      if (partial.uses[cost] !== 0 || costSeen[cost] === this.pass) continue;
      costSeen[cost] = this.pass;
      const moved = this.displace(cost, left);
      const arc = arcs[k] ?? 0;
      flow[arc] = (flow[arc] ?? 0) + moved;
      left -= moved;
    }
    if (left <= this.nothing) lineSeen[line] = 0;
    return amount - left;
  }

  /** Makes room for up to `amount` in a full cost, by having others hand on elsewhere; returns the room made. */
  private displace(cost: number, amount: number): number {
    const { flow, lineSeen } = this;
    const users = this.partial.network.usersOf[cost] ?? NONE;
    const into = this.partial.network.arcsInto[cost] ?? NONE;
    let left = amount;
    for (let q = 0; q < users.length; q++) {
      const other = users[q] ?? 0;
      const arc = into[q] ?? 0;
      const held = flow[arc] ?? 0;
      if (held <= this.nothing || lineSeen[other] === this.pass) continue;
      const moved = this.push(other, Math.min(held, left));
      flow[arc] = (flow[arc] ?? 0) - moved;
      left -= moved;
      if (left > this.nothing) continue;
      // It may have more to give: others can ask again in this pass.
      this.costSeen[cost] = 0;
      break;
    }
    return amount - left;
  }

  private readBest(): void {
    const { own, weight } = this.partial.network;
    let benefit = 0;
    let cost = 0;
    for (let line = 0; line < own.length; line++) {
      if (this.lineSeen[line] !== this.pass) continue;
      benefit += this.partial.shape.benefit[line] ?? 0;
      cost += own[line] ?? 0;
    }
    for (let at = 0; at < weight.length; at++) if (this.costSeen[at] === this.pass) cost += weight[at] ?? 0;
    this.bestBenefit = benefit;
    this.bestCost = cost;
  }
}
