import { Annealing } from './annealing.js';
import { guided, isBetter } from './cost-order.js';
import { bestRule } from './best-rule.js';
import { RULES } from './dispatcher.js';
import { Draft } from './draft.js';
import { freeOperations } from './free-operations.js';
import { KeySearch } from './key-search.js';
import { PER_MINUTE } from './plan-model.js';
import type { PlanModel } from './plan-model.js';
import { draftOf } from './draft-of.js';
import { Placer } from './placer.js';
import { repair } from './repair.js';
import type { PlanEffort } from './plan-result.js';
import { seeded } from '#libs/chance';
import { SequenceSearch } from './sequence-search.js';
import { sortByStart } from './sort-by-start.js';

/** The part of the time that is spent on keys; the rest mends the order that they gave. */
const T = {
  keyShare: 0.7,
  keyHot: 30,
  keyCold: 2,
  hot: 10,
  cold: 1,
  keptHot: 6,
  keyLooks: 8,
  keysEach: 12,
  looksEach: 1000,
  hotLater: 100,
  rulesUntil: 0.25,
};

export interface Found {
  readonly draft: Draft;
  readonly looked: number;
  readonly firstMs: number;
  readonly bestMs: number;
}

/** Watches the time and counts schedules; `part` of the effort that is gone. */
class Meter {
  looked = 0;
  firstMs = 0;
  bestMs = 0;
  private readonly began: number;

  constructor(private readonly effort: PlanEffort) {
    this.began = effort.now();
  }

  get ms(): number {
    return this.effort.now() - this.began;
  }

  get part(): number {
    const { timeLimitMs, lookLimit } = this.effort;
    return Math.max(this.ms / timeLimitMs, this.looked / (lookLimit ?? Infinity));
  }

  first(): void {
    this.firstMs = this.ms;
    this.bestMs = this.firstMs;
  }
}

const cooled = (hot: number, cold: number, part: number): number =>
  PER_MINUTE * hot * (cold / hot) ** Math.min(1, part);

export function searchPlan(model: PlanModel, effort: PlanEffort): Found {
  const meter = new Meter(effort);
  const free = freeOperations(model);
  const placer = new Placer(model);
  const random = seeded(effort.seed);
  if (free.length === 0) {
    const draft = new Draft(model, free);
    placer.begin(draft);
    return { draft, looked: 0, firstMs: meter.ms, bestMs: meter.ms };
  }
  const best = model.previous.any
    ? searchNearby(placer, free, random, meter)
    : searchAfresh(placer, free, random, meter);
  const { looked, firstMs, bestMs } = meter;
  return { draft: best, looked, firstMs, bestMs };
}

/** Around the previous plan: what had to go is put where it costs least, then all is searched, changes being charged. */
function searchNearby(placer: Placer, free: readonly number[], random: () => number, meter: Meter): Draft {
  const { assignments, displaced } = repair(placer.model.problem);
  const draft = draftOf(placer, free, assignments, displaced);
  meter.first();
  const keys = new KeySearch(placer, free, random, { urgency: 0.5, weight: 0, apart: 0 }, draft);
  for (let { part } = meter; part < T.keyShare; { part } = meter) {
    if (keys.walk(8, cooled(T.keptHot, T.keptHot / 10, part / T.keyShare))) meter.bestMs = meter.ms;
    meter.looked = keys.looked * T.keyLooks;
  }
  const start = isBetter(draft.cost, keys.best.cost) ? draft : mended(placer, keys.best, free);
  const annealing = new Annealing(placer, random, free, start);
  anneal(annealing, T.keptHot / 4, meter, meter.looked);
  return isBetter(keys.best.cost, annealing.best.cost) ? keys.best : annealing.best;
}

function anneal(annealing: Annealing, hot: number, meter: Meter, before: number): void {
  const from = meter.part;
  for (let { part } = meter; part < 1; { part } = meter) {
    if (annealing.walk(32, cooled(hot, Math.min(T.cold, hot / 10), (part - from) / (1 - from))))
      meter.bestMs = meter.ms;
    meter.looked = before + annealing.looked;
  }
}

/**
 * Rounds of keys and mending, each from the start with a rule of its own, until the time is over. The first round takes
 * most of a short time; a small shop sees many rounds, as what one misses another finds.
 */
function searchAfresh(placer: Placer, free: readonly number[], random: () => number, meter: Meter): Draft {
  let rule = bestRule(placer, free, () => meter.part > T.rulesUntil);
  let best: Draft | null = null;
  for (let round = 0; round === 0 || meter.part < 1; round++) {
    const keys = new KeySearch(placer, free, random, rule);
    if (round === 0) meter.first();
    const begun = meter.looked;
    const share = round === 0 ? ((globalThis as any).KS ?? T.keyShare) : 1;
    for (let part = 0; part < 1;) {
      if (keys.walk(8, cooled(T.keyHot, T.keyCold, part))) noteBetter(keys.best, best, meter);
      meter.looked = begun + keys.looked * T.keyLooks;
      part = Math.max(meter.part / share, keys.looked / (T.keysEach * free.length));
    }
    const E = globalThis as any;
    const sequences = new SequenceSearch(placer, free, random);
    const mend = mended(placer, keys.best, free);
    if (!E.NOSEQ && sequences.begin(mend)) {
      const f = meter.part;
      const b = meter.looked;
      for (let part = 0; part < 1; ) {
        sequences.walk(32, cooled(E.SH ?? 10, E.SC ?? 1, part));
        meter.looked = b + sequences.looked;
        part = Math.max(f >= 1 ? 1 : (meter.part - f) / (1 - f), round === 0 && !E.SHORT ? 0 : sequences.looked / ((E.SL ?? 1000) * free.length));
      }
      const got = sequences.best();
      if (E.DBG) console.log(sequences.least, got.cost, sequences.looked, guided(mend.cost));
      if (best === null || isBetter(got.cost, best.cost)) best = got;
    }
    const annealing = new Annealing(placer, random, free, mend);
    const before = meter.looked;
    const from = meter.part;
    for (let part = 0; part < 1;) {
      if (annealing.walk(32, cooled(round === 0 ? T.hot : T.hotLater, T.cold, part)))
        noteBetter(annealing.best, best, meter);
      meter.looked = before + annealing.looked;
      part = Math.max(from >= 1 ? 1 : (meter.part - from) / (1 - from), annealing.looked / (T.looksEach * free.length));
    }
    for (const one of [keys.best, annealing.best])
      if (best === null || isBetter(one.cost, best.cost)) best = one;
    rule = RULES[Math.floor(random() * RULES.length)] ?? rule;
  }
  return best ?? new Draft(placer.model, free);
}

function noteBetter(found: Draft, best: Draft | null, meter: Meter): void {
  if (best === null || isBetter(found.cost, best.cost)) meter.bestMs = meter.ms;
}

/** What the dispatcher made as an order of starts with everybody laid down, which comes out the same. */
function mended(placer: Placer, from: Draft, free: readonly number[]): Draft {
  const start = new Draft(placer.model, free);
  start.copyFrom(from);
  start.wish.set(start.crew);
  sortByStart(start);
  placer.begin(start);
  placer.place(start, 0, 0, Infinity, null);
  return start;
}
