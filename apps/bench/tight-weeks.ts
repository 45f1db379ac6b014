import { checkPlan, plan } from '#libs/plan';
import type { PlanProblem } from '#libs/plan';
import { mean, say } from './replan/figures.js';
import { twoWeeks } from './replan/two-weeks.js';
import { shopLike, TIGHT_WEEKS } from './schedule/shop-like.js';

/** Reads `--name value` from the command line. */
function option(name: string, usual: number): number {
  const at = process.argv.indexOf(`--${name}`);
  return at < 0 ? usual : Number(process.argv[at + 1] ?? usual);
}

const WEEKS = option('weeks', 20);
const FIRST = option('first', 1);
const SEEDS = option('seeds', 5);
const SHORT_MS = option('ms', 100);
const MIDDLE_MS = option('middle-ms', 1000);
const LONG_MS = option('long-ms', 60_000);
/** So many seeds have the middle and the long time. */
const LONG_SEEDS = option('long-seeds', 2);
/** `--like` takes the weeks of the schedule bench instead of those of the bench of planning again. */
const isLike = process.argv.includes('--like');
const WARM_UPS = 16;
/** Weeks that have no tightness to measure against have at least so many weighted minutes. */
const LEAST = 60;

const weekOf = (number: number): PlanProblem => (isLike ? shopLike(TIGHT_WEEKS, number) : twoWeeks(number));

/** Milliseconds of this process's CPU, so that other work on the machine does not count. */
function cpuMs(): number {
  const { user, system } = process.cpuUsage();
  return (user + system) / 1000;
}

/** Lateness of the plan that is found in so much time, in weighted minutes; a plan that breaks a rule ends the bench. */
function latenessOf(problem: PlanProblem, timeLimitMs: number, seed: number): number {
  const made = plan(problem, { timeLimitMs, now: cpuMs, seed });
  if (!made.ok) throw new Error(made.fault.detail);
  const broken = checkPlan(problem, made.value);
  if (broken.length > 0) throw new Error(JSON.stringify(broken[0]));
  if (made.value.unplaced.length > 0) throw new Error('something has no place');
  return made.value.cost.lateness;
}

const bySeeds = (problem: PlanProblem, timeLimitMs: number, seeds: number): number[] =>
  Array.from({ length: seeds }, (_, k) => latenessOf(problem, timeLimitMs, k + 1));

const cold = latenessOf(weekOf(FIRST), SHORT_MS, 1);
for (let k = 0; k < WARM_UPS; k++) latenessOf(weekOf(FIRST + 900 + k), SHORT_MS, 1);

interface Week {
  readonly short: readonly number[];
  readonly middle: readonly number[];
  readonly best: number;
}

const weeks: Week[] = [];
for (let number = FIRST; number < FIRST + WEEKS; number++) {
  const problem = weekOf(number);
  const short = bySeeds(problem, SHORT_MS, SEEDS);
  const middle = bySeeds(problem, MIDDLE_MS, LONG_SEEDS);
  const long = bySeeds(problem, LONG_MS, LONG_SEEDS);
  const best = Math.min(...short, ...middle, ...long);
  weeks.push({ short, middle, best });
  const means = [mean(short), mean(middle), mean(long)].map((value) => value.toFixed(0).padStart(8));
  say(`week ${String(number).padStart(4)}:${means.join('')}  best ${best}  (${short.join(', ')})`);
}

const ratio = (pick: (week: Week) => readonly number[]): string =>
  (mean(weeks.map((week) => mean(pick(week)))) / Math.max(1, mean(weeks.map(({ best }) => best)))).toFixed(2);
const spread = mean(
  weeks.map(({ short, best }) => (Math.max(...short) - Math.min(...short)) / Math.max(LEAST, best)),
);
say(
  `${WEEKS} weeks, ${SEEDS} seeds, CPU time of a warm process: all lateness in ${SHORT_MS} ms is ${ratio(({ short }) => short)} times the ` +
    `best, in ${MIDDLE_MS} ms ${ratio(({ middle }) => middle)} times. Spread in ${SHORT_MS} ms (mean over weeks of the ` +
    `greatest less the least, over the best or ${LEAST}): ${(100 * spread).toFixed(0)} %. ` +
    `The first answer of a cold process in ${SHORT_MS} ms: ${cold} in week ${FIRST}.`,
);
