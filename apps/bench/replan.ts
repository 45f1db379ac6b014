import { checkPlan, plan, replan } from '#libs/plan';
import type { Plan, PlanProblem, PlanWeights, Replanned } from '#libs/plan';
import { EVENT_TIME, EVENTS, after, later } from './replan/events.js';
import type { EventKind } from './replan/events.js';
import { comparison, mean, percentile, say } from './replan/figures.js';
import type { Figures } from './replan/figures.js';
import { twoWeeks } from './replan/two-weeks.js';

/** Reads `--name value` from the command line. */
function option(name: string, usual: number): number {
  const at = process.argv.indexOf(`--${name}`);
  return at < 0 ? usual : Number(process.argv[at + 1] ?? usual);
}

const SHOPS = option('shops', 20);
const FIRST = option('first', 1);
const LIMIT_MS = option('ms', 80);
const SCRATCH_MS = option('scratch-ms', LIMIT_MS);
/** The plan before the event has seen so many schedules, so that it is the same in every run. */
const BEFORE_LOOKS = option('before-looks', 12_000);
const LONG_MS = 60_000;
const WARM_UPS = 4;
/** `--weights '{"startMoved":10}'` */
const weightsAt = process.argv.indexOf('--weights');
const WEIGHTS: Partial<PlanWeights> =
  weightsAt < 0 ? {} : (JSON.parse(process.argv[weightsAt + 1] ?? '{}') as Partial<PlanWeights>);

/** Asking for the CPU's time takes so long that within these milliseconds the clock on the wall is read instead. */
const READ_AGAIN_MS = 0.4;
const clock = { wallMs: 0, cpuMs: 0 };

/** Milliseconds of this process's CPU, so that other work on the machine does not count. */
function cpuMs(): number {
  const wallMs = performance.now();
  const since = wallMs - clock.wallMs;
  if (since < READ_AGAIN_MS) return clock.cpuMs + since;
  const { user, system } = process.cpuUsage();
  clock.wallMs = wallMs;
  clock.cpuMs = Math.max(clock.cpuMs, (user + system) / 1000);
  return clock.cpuMs;
}

const effort = (timeLimitMs: number, seed = 1) => ({ timeLimitMs, now: cpuMs, seed });

function planned(problem: PlanProblem, timeLimitMs: number, lookLimit?: number): Plan {
  const made = plan(problem, { ...effort(timeLimitMs), lookLimit });
  if (!made.ok) throw new Error(made.fault.detail);
  return made.value;
}

function replanned(problem: PlanProblem): { made: Replanned; ms: number } {
  const began = cpuMs();
  const made = replan(problem, effort(LIMIT_MS));
  const ms = cpuMs() - began;
  if (!made.ok) throw new Error(made.fault.detail);
  return { made: made.value, ms };
}

function oneCase(shop: PlanProblem, event: EventKind): Figures {
  const problem = { ...after(event, shop), weights: WEIGHTS };
  const { made, ms } = replanned(problem);
  const scratch = planned({ ...problem, previous: null }, SCRATCH_MS);
  const broken = checkPlan(problem, made);
  if (broken.length > 0) throw new Error(`${event}: ${JSON.stringify(broken[0])}`);
  return { ...comparison(problem, made, scratch), event, ms };
}

const figures: Figures[] = [];
const quiet: boolean[] = [];
const only = process.argv.includes('--brief');
for (let seed = FIRST - WARM_UPS; seed < FIRST + SHOPS; seed++) {
  const problem = twoWeeks(seed + 1000);
  const before = planned(problem, LONG_MS, seed < FIRST ? 1000 : BEFORE_LOOKS);
  const shop = later(problem, before.assignments, EVENT_TIME);
  if (seed < FIRST) {
    for (const event of EVENTS) oneCase(shop, event);
    continue;
  }
  quiet.push(!replanned(shop).made.isChanged);
  for (const event of EVENTS) figures.push(oneCase(shop, event));
}
say(
  `${SHOPS} shops, ${LIMIT_MS} ms; without an event unchanged: ${quiet.filter((one) => one).length} of ${quiet.length}`,
);
for (const event of only ? [null] : [...EVENTS, null]) {
  const own = figures.filter((one) => event === null || one.event === event);
  const of = (pick: (one: Figures) => number): number => mean(own.map(pick));
  const times = own.map(({ ms }) => ms);
  const one = (value: number): string => value.toFixed(1).padStart(7);
  say(
    `${(event ?? 'all').padEnd(10)} ms median${one(percentile(times, 50))} p95${one(percentile(times, 95))} first${one(
      percentile(
        own.map(({ firstMs }) => firstMs),
        50,
      ),
    )}` +
      ` | moved${one(of((f) => f.moved))} people${one(of((f) => f.people))} bays${one(of((f) => f.bays))} newly late${one(of((f) => f.newlyLate))} (scratch${one(of((f) => f.newlyLateScratch))})` +
      ` | lateness before${one(of((f) => f.before))} after${one(of((f) => f.lateness))} scratch${one(of((f) => f.scratch))} ratio ${(of((f) => f.lateness) / of((f) => f.scratch)).toFixed(2)} change${one(of((f) => f.change))} sum${one(of((f) => f.lateness + f.change))} bound${one(of((f) => f.bound))}`,
  );
}
