import { readFileSync } from 'node:fs';
import { basename } from 'node:path';
import { bestChoice } from '#libs/choice';
import type { BudgetProblem, Choice } from '#libs/choice';
import { solveProgram } from './budget/integer-program.js';
import { isSetUnionKnapsack, readSetUnionKnapsack } from './budget/published.js';
import { flawIn, median, msText, proofText, worst } from './budget/report.js';
import { shopLike } from './budget/shop-like.js';

const SIZES = [
  { lines: 20, cases: 15 },
  { lines: 40, cases: 15 },
  { lines: 60, cases: 15 },
  { lines: 100, cases: 9 },
] as const;
const OURS_MS = 2000;
const PROGRAM_SECONDS = 20;
const PUBLISHED_MS = 10_000;
/** Unmeasured runs of both beforehand, as a server that has been up for a while. */
const WARM_UPS = 20;

const say = (line: string): void => void process.stdout.write(`${line}\n`);

function solve(problem: BudgetProblem, timeLimitMs: number): { choice: Choice; ms: number } {
  const now = (): number => performance.now();
  const start = now();
  const best = bestChoice(problem, { timeLimitMs, now, seed: 1 });
  if (!best.ok) throw new Error(best.fault.detail);
  return { choice: best.value, ms: now() - start };
}

/** Solves the files; false when an answer is wrong. */
function published(files: readonly string[]): boolean {
  let isRight = true;
  for (const file of files) {
    const text = readFileSync(file, 'utf8');
    if (!isSetUnionKnapsack(text)) {
      say(`${basename(file)}: not a set-union knapsack instance`);
      isRight = false;
      continue;
    }
    const problem = readSetUnionKnapsack(text);
    const { choice, ms } = solve(problem, PUBLISHED_MS);
    const flaw = flawIn(problem, choice);
    if (flaw !== null) isRight = false;
    const size = `${problem.lines.length} items, ${problem.steps?.length ?? 0} elements`;
    say(
      `${basename(file)}: ${size}: objective ${choice.benefit}, ${proofText(choice)} (bound ${choice.upperBound}), ${msText(ms)} ms${flaw === null ? '' : `, WRONG: ${flaw}`}`,
    );
  }
  return isRight;
}

interface SideBySide {
  readonly ours: number[];
  readonly theirs: number[];
  wrong: string[];
}

async function compare(lines: number, seed: number, into: SideBySide): Promise<void> {
  const problem = shopLike(lines, seed);
  const { choice, ms } = solve(problem, OURS_MS);
  const program = await solveProgram(problem, PROGRAM_SECONDS);
  into.ours.push(ms);
  into.theirs.push(program.ms);
  const flaw = flawIn(problem, choice);
  if (flaw !== null) into.wrong.push(`${lines} lines, seed ${seed}: ${flaw}`);
  if (choice.proven && program.proven && choice.benefit !== program.benefit)
    into.wrong.push(`${lines} lines, seed ${seed}: optimum ${choice.benefit} here, ${program.benefit} there`);
  const theirs = program.proven ? 'proven' : 'not proven';
  say(
    `  ${String(lines).padStart(3)} lines, seed ${String(seed).padStart(2)}: objective ${choice.benefit} ${proofText(choice)} ${msText(ms)} ms | integer program ${program.benefit ?? '-'} ${theirs} ${msText(program.ms)} ms`,
  );
}

async function generated(): Promise<boolean> {
  for (let seed = 1; seed <= WARM_UPS; seed++) solve(shopLike(20 + 2 * seed, 1000 + seed), OURS_MS);
  await solveProgram(shopLike(20, 1001), PROGRAM_SECONDS);
  const wrong: string[] = [];
  const summary: string[] = [];
  for (const { lines, cases } of SIZES) {
    const both: SideBySide = { ours: [], theirs: [], wrong };
    for (let seed = 1; seed <= cases; seed++) await compare(lines, seed, both);
    const ratio = median(both.theirs.map((ms, at) => ms / (both.ours[at] ?? Number.NaN)));
    summary.push(
      `${String(lines).padStart(3)} lines: median ${msText(median(both.ours))} ms, worst ${msText(worst(both.ours))} ms | integer program: median ${msText(median(both.theirs))} ms, worst ${msText(worst(both.theirs))} ms | median ratio ${ratio.toFixed(0)}`,
    );
  }
  say(`\n${summary.join('\n')}`);
  for (const line of wrong) say(`WRONG: ${line}`);
  say(wrong.length === 0 ? 'Equal optimum wherever both prove it.' : 'NOT EQUAL.');
  return wrong.length === 0;
}

const files = process.argv.slice(2);
process.exitCode = (files.length > 0 ? published(files) : await generated()) ? 0 : 1;
