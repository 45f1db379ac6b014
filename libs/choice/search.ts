import { CutBound } from './cut-bound.js';
import type { Budgets, Goal } from './goal.js';
import type { Network } from './network.js';
import { OPEN, PartialChoice } from './partial-choice.js';
import { Probe } from './probe.js';
import type { Shape } from './shape.js';

/** Flows per node. More cost time and save few nodes. */
const TRIES = 3;
const TRIES_AT_ROOT = 40;
/** A probe that puts out fewer lines than this, on average, costs more than it saves: only one node in so many has it then. */
const WORTHWHILE = 3;
const SELDOM = 16;
/** How much the last probe counts in that average. */
const FRESH = 0.1;

export interface SearchTerms {
  readonly shape: Shape;
  readonly network: Network;
  readonly goal: Goal;
  /** The real price of a set, by index. */
  readonly exact: (lines: readonly number[]) => number;
  /** Asked at every node; true ends the search. */
  readonly enough: () => boolean;
}

/** The lines between which the best mixture lies: sets that cost more and less than the money left. */
interface Mixture {
  moreBenefit: number;
  moreCost: number;
  lessBenefit: number;
  lessCost: number;
}

/**
 * Depth first branch and bound over lines in and out, with the cut bound at every node. Complete when `unexplored` is
 * still below every benefit: then nothing that the goal would want is left.
 */
export class Search {
  /** The most benefit that what was left unexplored could have; -Infinity when nothing was. */
  unexplored = -Infinity;
  private readonly partial: PartialChoice;
  private readonly cut: CutBound;
  private readonly probe: Probe;
  private readonly inMore: Uint8Array;
  private readonly inLess: Uint8Array;
  private readonly costSeen: Uint8Array;
  private readonly saved: Float64Array[] = [];
  /** Lines that a probe puts out, on average of late. */
  private yields = WORTHWHILE + 1;
  private visits = 0;
  private ended = false;

  constructor(private readonly terms: SearchTerms) {
    this.partial = new PartialChoice(terms.shape, terms.network);
    this.cut = new CutBound(this.partial);
    this.probe = new Probe(this.partial, this.cut);
    this.inMore = new Uint8Array(terms.shape.ids.length);
    this.inLess = new Uint8Array(terms.shape.ids.length);
    this.costSeen = new Uint8Array(terms.network.weight.length);
  }

  /** Looks for all that the goal wants at budgets from `low` to `high`. */
  run(low: number, high: number): void {
    const { must, barred } = this.terms.shape;
    const mark = this.partial.mark;
    const fits =
      barred.every((line) => this.partial.exclude(line)) && must.every((line) => this.partial.include(line));
    if (fits) this.visit(0, { low, high }, Infinity);
    this.partial.undoTo(mark);
  }

  private visit(depth: number, budgets: Budgets, ceiling: number): void {
    const { partial, terms } = this;
    if (this.ended || terms.enough()) {
      this.ended = true;
      this.unexplored = Math.max(this.unexplored, ceiling);
      return;
    }
    const mark = partial.mark;
    if (partial.cost - terms.network.slack <= budgets.high && this.settle(budgets)) {
      this.offerThis();
      const bound = this.bound(budgets, depth === 0 ? TRIES_AT_ROOT : TRIES);
      if (budgets.high >= budgets.low && this.fix(budgets, bound) && this.tryOut(budgets)) {
        const line = this.lineToSplit();
        if (line < 0) this.offerThis();
        else this.split(line, depth, budgets, Math.min(ceiling, bound));
      }
    }
    partial.undoTo(mark);
  }

  /** In first: what the search finds early lets it leave out more later. */
  private split(line: number, depth: number, budgets: Budgets, ceiling: number): void {
    const { cut, partial } = this;
    const saved = (this.saved[depth] ??= new Float64Array(cut.flow.length));
    saved.set(cut.flow);
    const { lambda } = cut;
    const mark = partial.mark;
    if (partial.include(line)) this.visit(depth + 1, { ...budgets }, ceiling);
    partial.undoTo(mark);
    cut.flow.set(saved);
    cut.lambda = lambda;
    if (partial.exclude(line)) this.visit(depth + 1, { ...budgets }, ceiling);
  }

  /** What cannot be paid goes out; what costs nothing more and stands in nobody's way comes in. */
  private settle({ high }: Budgets): boolean {
    const { partial, terms } = this;
    const { slack } = terms.network;
    const { needs, rivals, benefit } = terms.shape;
    for (let line = 0; line < partial.state.length; line++) {
      if (partial.state[line] !== OPEN) continue;
      const adds = partial.adds(line);
      if (partial.cost + adds - slack > high) {
        if (!partial.exclude(line)) return false;
      } else if (adds === 0 && slack === 0 && rivals[line]?.length === 0 && needs[line]?.length === 0) {
        if ((benefit[line] ?? 0) > 0 && !partial.include(line)) return false;
      }
    }
    return true;
  }

  private offerThis(): void {
    const { goal, network, exact } = this.terms;
    const { benefit, cost } = this.partial;
    if (!goal.wants(benefit, cost - network.slack)) return;
    const lines = this.partial.chosen();
    const price = exact(lines);
    if (goal.wants(benefit, price)) goal.offer({ lines, benefit, price });
  }

  /** Narrows the budgets by bounds at several λ; returns the bound at the highest budget that is left. */
  private bound(budgets: Budgets, tries: number): number {
    const { cut, partial, terms } = this;
    const { slack } = terms.network;
    const mix = this.everythingOpen();
    let bound = partial.benefit + mix.moreBenefit;
    terms.goal.narrow(budgets, () => bound);
    let money = budgets.high + slack - partial.cost;
    if (budgets.high < budgets.low || mix.moreCost <= money) {
      cut.lambda = 0;
      return bound;
    }
    let lambda = cut.lambda > 0 ? cut.lambda : mix.moreBenefit / mix.moreCost;
    for (let tried = 0; tried < tries && lambda > 0; tried++) {
      const { high } = budgets;
      const top = cut.at(lambda, high + slack);
      terms.goal.narrow(budgets, (budget) => top - lambda * (high - budget));
      if (budgets.high < budgets.low) return bound;
      bound = top - lambda * (high - budgets.high);
      money = budgets.high + slack - partial.cost;
      this.learn(mix, money, tried === 0);
      const next = (mix.moreBenefit - mix.lessBenefit) / (mix.moreCost - mix.lessCost);
      const reach = partial.benefit + mix.lessBenefit + next * (money - mix.lessCost);
      if (!(next > 0) || !(reach < bound - 1e-6 * Math.max(1, bound))) break;
      lambda = next;
    }
    return bound;
  }

  private everythingOpen(): Mixture {
    const { partial, inMore, inLess, costSeen } = this;
    const { own, weight, costsOf } = this.terms.network;
    const mix = { moreBenefit: 0, moreCost: 0, lessBenefit: 0, lessCost: 0 };
    costSeen.fill(0);
    for (let line = 0; line < inMore.length; line++) {
      inLess[line] = 0;
      inMore[line] = partial.state[line] === OPEN ? 1 : 0;
      if (inMore[line] === 0) continue;
      mix.moreBenefit += this.terms.shape.benefit[line] ?? 0;
      mix.moreCost += own[line] ?? 0;
      for (const cost of costsOf[line] ?? []) {
        if (partial.uses[cost] !== 0 || costSeen[cost] === 1) continue;
        costSeen[cost] = 1;
        mix.moreCost += weight[cost] ?? 0;
      }
    }
    return mix;
  }

  /** Takes in the set that is best at the last λ. */
  private learn(mix: Mixture, money: number, isFirst: boolean): void {
    const { cut, inMore, inLess } = this;
    if (mix.lessCost > money) {
      mix.moreBenefit = mix.lessBenefit;
      mix.moreCost = mix.lessCost;
      mix.lessBenefit = mix.lessCost = 0;
      inMore.set(inLess);
      inLess.fill(0);
    }
    if (cut.bestCost > money) {
      if (!isFirst && cut.bestCost >= mix.moreCost) return;
      mix.moreBenefit = cut.bestBenefit;
      mix.moreCost = cut.bestCost;
      this.readBest(inMore);
    } else {
      mix.lessBenefit = cut.bestBenefit;
      mix.lessCost = cut.bestCost;
      this.readBest(inLess);
    }
  }

  private readBest(into: Uint8Array): void {
    const { cut, partial } = this;
    for (let line = 0; line < into.length; line++)
      into[line] = partial.state[line] === OPEN && cut.isBest(line) ? 1 : 0;
  }

  /** Settles every open line whose other way is shut by the bound. False when that contradicts itself. */
  private fix(budgets: Budgets, bound: number): boolean {
    const { cut, partial, terms } = this;
    const { lambda, excess } = cut;
    if (lambda === 0) return true;
    const isShut = (loss: number): boolean => {
      const left = { ...budgets };
      const top = bound - loss;
      terms.goal.narrow(left, (budget) => top - lambda * (budgets.high - budget));
      return left.high < left.low;
    };
    for (let line = 0; line < partial.state.length; line++) {
      if (partial.state[line] !== OPEN) continue;
      const worth = lambda * (excess[line] ?? 0);
      if (worth > 1e-9 && isShut(worth)) {
        if (!partial.include(line)) return false;
      } else if (worth < 0 && isShut(-worth)) {
        if (!partial.exclude(line)) return false;
      }
    }
    return partial.cost - terms.network.slack <= budgets.high;
  }

  /** Puts out every open line with which the goal is out of reach. False when that contradicts itself. */
  private tryOut(budgets: Budgets): boolean {
    const { cut, partial, probe, terms } = this;
    if (cut.lambda === 0 || (this.yields < WORTHWHILE && ++this.visits % SELDOM !== 0)) return true;
    const limit = budgets.high + terms.network.slack;
    let out = 0;
    probe.ready();
    for (let line = 0; line < partial.state.length; line++) {
      if (partial.state[line] !== OPEN) continue;
      const top = probe.with(line, limit);
      const left = { ...budgets };
      terms.goal.narrow(left, (budget) => top - probe.rate * (budgets.high - budget));
      if (left.high >= left.low) continue;
      if (!partial.exclude(line)) return false;
      out++;
    }
    this.yields += FRESH * (out - this.yields);
    return true;
  }

  /** The heaviest line that the mixture holds in part; -1 when all lines are settled. */
  private lineToSplit(): number {
    const { partial, inMore, inLess, terms } = this;
    let best = -1;
    let most = -1;
    for (let line = 0; line < partial.state.length; line++) {
      if (partial.state[line] !== OPEN) continue;
      const isMixed = inMore[line] === 1 && inLess[line] === 0;
      const weight =
        ((terms.shape.benefit[line] ?? 0) + 1) *
        (partial.adds(line) + 1) *
        (isMixed ? 1e9 : 1) *
        (this.isDisputed(line) ? 1e30 : 1);
      if (weight > most) {
        most = weight;
        best = line;
      }
    }
    return best;
  }

  /** The bound counts both of two rivals, so that it is of little use before they are settled. */
  private isDisputed(line: number): boolean {
    const rivals = this.terms.shape.rivals[line] ?? [];
    return rivals.some((rival) => this.partial.state[rival] === OPEN);
  }
}
