import { Annealing } from './annealing.js';
import { isBetter } from './cost-order.js';
import { bestBeginning } from './best-beginning.js';
import type { Beginning } from './best-beginning.js';
import { RULES } from './dispatcher.js';
import { Draft, HARD } from './draft.js';
import { freeOperations } from './free-operations.js';
import { KeySearch } from './key-search.js';
import { PER_MINUTE } from './plan-model.js';
import type { PlanModel } from './plan-model.js';
import { Placer } from './placer.js';
import { searchNearby } from './search-nearby.js';
import type { Schedule } from './read-out.js';
import type { PlanEffort } from './plan-result.js';
import { seeded } from '#libs/chance';
import { SequenceSearch } from './sequence-search.js';
import { sortByStart } from './sort-by-start.js';

/**
 * How the effort is shared out when there is no plan yet: keys first, as they come down fast from a rule's plan; sequences
 * next, as their changes are the cheapest to look at; at last the placer's own orders, which leave it open who does what.
 * Measured on 20 generated weeks of 60 repair orders and on small shops with a proof.
 */
const SHARES = { rules: 0.12, keys: 0.45, sequences: 0.97 };
/** The most looks of a round for each operation: keys, sequences, orders. The sequences have twice as many each round. */
const ROUND = { keys: 12, sequences: 600, orders: 200 };
/** A run of the dispatcher takes about as long as so many looks. */
const LOOKS_OF_KEYS = 8;
/** A change of sequences takes about a quarter of a look at an order. */
const LOOKS_OF_SEQUENCES = 0.25;
/** Temperatures in minutes of lateness of weight 1: about what a change for the worse may cost, at first and at last. */
const KEYS = { hot: 30, cold: 2 };
/** The same for sequences, but in parts of the mean length of an operation: what one more or less ahead makes. */
const SEQUENCES = { hot: 1.2, cold: 0.36 };
/** With fewer looks than so many for each operation there is no time to cool down: it begins less hot, but not below. */
const HURRY = { looks: 90, power: 0.65, least: 0.3 };
/** How much hotter later rounds may be. */
const HOTTEST = 12;
const ORDERS = { hot: 10, cold: 1 };
/** Changes tried between two looks at the clock. */
const TRIES = { keys: 8, sequences: 64, orders: 32 };

export interface Found {
  readonly draft: Schedule;
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

/** Part of the effort: until a share of it is gone, or so many schedules were looked at. */
class Stretch {
  private readonly from: number;
  private readonly before: number;

  constructor(
    private readonly meter: Meter,
    private readonly until: number,
    private readonly looks: number,
  ) {
    this.from = meter.part;
    this.before = meter.looked;
  }

  /** How much of it is gone. */
  get part(): number {
    const { part, looked } = this.meter;
    const byTime = part >= this.until ? 1 : (part - this.from) / (this.until - this.from);
    return Math.max(byTime, (looked - this.before) / this.looks);
  }
}

interface Degrees {
  readonly hot: number;
  readonly cold: number;
}

const cooled = ({ hot, cold }: Degrees, part: number): number =>
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
    ? searchAround(placer, free, random, meter)
    : searchAfresh(placer, free, random, meter);
  const { looked, firstMs, bestMs } = meter;
  return { draft: best, looked, firstMs, bestMs };
}

/** Around the previous plan; afresh when something has no place there. */
function searchAround(placer: Placer, free: readonly number[], random: () => number, meter: Meter): Schedule {
  const around = searchNearby(placer.model, free, random, meter);
  if (around.isComplete) return around.kept;
  const afresh = searchAfresh(placer, free, random, meter);
  return (afresh.cost[HARD] ?? 0) < around.hard ? afresh : around.kept;
}

/** What is in hand while a plan is looked for. */
interface Search {
  readonly placer: Placer;
  readonly free: readonly number[];
  readonly random: () => number;
  readonly meter: Meter;
  best: Draft | null;
}

/**
 * Rounds of keys, sequences and orders, each from the start with a rule of its own, until the time is over. The first
 * round has all of a short time; a small shop sees many rounds, as what one misses another finds.
 */
function searchAfresh(placer: Placer, free: readonly number[], random: () => number, meter: Meter): Draft {
  const search: Search = { placer, free, random, meter, best: null };
  let beginning = bestBeginning(placer, free, () => meter.part > SHARES.rules);
  for (let round = 0; round === 0 || meter.part < 1; round++) {
    const begun = meter.part;
    const until = (share: number): number => begun + share * (1 - begun);
    let draft = byKeys(search, beginning, new Stretch(meter, until(SHARES.keys), ROUND.keys * free.length));
    // What is deep in a valley at the usual heat is left at another.
    const heat = round === 0 ? unhurried(search) : HOTTEST ** random();
    const looks = ROUND.sequences * 2 ** round * free.length * LOOKS_OF_SEQUENCES;
    draft = bySequences(
      search,
      draft,
      new Stretch(meter, until(SHARES.sequences), looks),
      heat,
      round % 2 === 1,
    );
    byOrders(search, draft, new Stretch(meter, 1, ROUND.orders * free.length));
    beginning = { ...beginning, rule: RULES[Math.floor(random() * RULES.length)] ?? beginning.rule };
  }
  return search.best ?? new Draft(placer.model, free);
}

/** Part of the usual heat, by the looks that there will be if the rest of the effort brings as many as before. */
function unhurried({ meter, free }: Search): number {
  const looks = meter.looked / Math.max(1e-9, meter.part) / free.length;
  return Math.min(1, Math.max(HURRY.least, (looks / HURRY.looks) ** HURRY.power));
}

function note(search: Search, found: Draft): void {
  if (search.best !== null && !isBetter(found.cost, search.best.cost)) return;
  search.best = found;
  search.meter.bestMs = search.meter.ms;
}

function byKeys(search: Search, beginning: Beginning, stretch: Stretch): Draft {
  const { placer, free, random, meter } = search;
  const keys = new KeySearch(placer, free, random, beginning);
  if (search.best === null) meter.first();
  const before = meter.looked;
  while (stretch.part < 1) {
    keys.walk(TRIES.keys, cooled(KEYS, stretch.part));
    meter.looked = before + keys.looked * LOOKS_OF_KEYS;
  }
  note(search, keys.best);
  placer.spared.fill(0);
  return mended(placer, keys.best, free);
}

/** What comes of a draft by its sequences, or the draft itself when it cannot be told as sequences. */
function bySequences(
  search: Search,
  draft: Draft,
  stretch: Stretch,
  heat: number,
  isByChance: boolean,
): Draft {
  const { placer, free, random, meter } = search;
  const sequences = new SequenceSearch(placer, free, random);
  if (!sequences.begin(draft)) return draft;
  if (isByChance) sequences.moves.weighed = 0;
  const before = meter.looked;
  const mean = free.reduce((sum, o) => sum + (placer.model.shortest[o] ?? 0), 0) / free.length;
  const degrees = { hot: SEQUENCES.hot * mean * heat, cold: SEQUENCES.cold * mean * Math.min(1, heat) };
  while (stretch.part < 1) {
    sequences.walk(TRIES.sequences, cooled(degrees, stretch.part));
    meter.looked = before + sequences.looked * LOOKS_OF_SEQUENCES;
  }
  const found = sequences.best();
  if (isBetter(draft.cost, found.cost)) return draft;
  note(search, found);
  return found;
}

function byOrders(search: Search, draft: Draft, stretch: Stretch): void {
  const { placer, free, random, meter } = search;
  const annealing = new Annealing(placer, random, free, draft);
  const before = meter.looked;
  while (stretch.part < 1) {
    annealing.walk(TRIES.orders, cooled(ORDERS, stretch.part));
    meter.looked = before + annealing.looked;
  }
  note(search, annealing.best);
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
