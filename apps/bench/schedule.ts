import { existsSync, readFileSync } from 'node:fs';
import { dirname, join, resolve } from 'node:path';
import { USAGE, readArguments } from './schedule/arguments.js';
import type { Arguments } from './schedule/arguments.js';
import { bestKnownOf } from './schedule/best-known.js';
import type { BestKnownFile } from './schedule/best-known.js';
import type { Format, Instance } from './schedule/format.js';
import { FORMATS } from './schedule/formats.js';
import { lineOf, summaryOf } from './schedule/report.js';
import type { Line } from './schedule/report.js';

const FOLDERS_UP = 3;

const say = (value: unknown): void => void process.stdout.write(`${JSON.stringify(value)}\n`);
const complain = (words: string): void => void process.stderr.write(`${words}\n`);

/** The best-known values that go with a file: those named on the command line, else the nearest above the file. */
function bestKnownFor(file: string, named: string | null): BestKnownFile {
  let folder = dirname(resolve(file));
  let path = named;
  for (let up = 0; path === null && up <= FOLDERS_UP; up++, folder = dirname(folder)) {
    const here = join(folder, 'best-known.json');
    if (existsSync(here)) path = here;
  }
  return path === null ? {} : (JSON.parse(readFileSync(path, 'utf8')) as BestKnownFile);
}

/** Solves one instance and prints its line. */
async function solveOne(
  file: string,
  format: Format,
  instance: Instance,
  { seconds, seed, bestKnown, against }: Arguments,
): Promise<Line> {
  const now = (): number => performance.now();
  const best = bestKnownOf(bestKnownFor(file, bestKnown), format.section, resolve(file), instance.number);
  const begun = now();
  const answer = instance.solve({ timeLimitMs: seconds * 1000, now, seed });
  const own = lineOf(file, instance.number, answer, best, now() - begun);
  for (const flaw of answer.flaws) complain(`${own.file}: ${flaw}`);
  const other = against ? await instance.against?.(seconds) : null;
  const line = other == null ? own : { ...own, against: { ...other, ms: Math.round(other.ms) } };
  say(line);
  return line;
}

/** The lines of one file's instances; none, and an exit code, when it cannot be read. */
async function solveFile(file: string, terms: Arguments): Promise<readonly Line[]> {
  const refuse = (why: string): readonly Line[] => {
    complain(`${file}: ${why}`);
    process.exitCode = 1;
    return [];
  };
  if (!existsSync(file)) return refuse('no such file');
  const text = readFileSync(file, 'utf8');
  for (const format of FORMATS) {
    const instances = format.read(text);
    if (instances === null) continue;
    const lines: Line[] = [];
    for (const instance of instances) lines.push(await solveOne(file, format, instance, terms));
    return lines;
  }
  return refuse(`in none of the layouts known: ${FORMATS.map(({ name }) => name).join(', ')}`);
}

async function main(): Promise<void> {
  let terms: Arguments;
  try {
    terms = readArguments(process.argv.slice(2));
  } catch (error) {
    complain(`${error instanceof Error ? error.message : String(error)}\n${USAGE}`);
    process.exitCode = 2;
    return;
  }
  const lines: Line[] = [];
  for (const file of terms.files) lines.push(...(await solveFile(file, terms)));
  say(summaryOf(lines));
  if (lines.some((line) => line.violations !== undefined)) process.exitCode = 1;
}

await main();
