import { parseArgs } from 'node:util';

export interface Arguments {
  readonly seconds: number;
  readonly seed: number;
  readonly bestKnown: string | null;
  /** Whether a general solver has a go as well. */
  readonly against: boolean;
  readonly files: readonly string[];
}

export const USAGE =
  'usage: bench:schedule -- [--seconds S] [--seed N] [--best-known FILE] [--against] FILE...\n' +
  '  S seconds for each file (default 10), N a whole number (default 1);\n' +
  '  without --best-known, a best-known.json beside the file or up to three folders above is read;\n' +
  '  --against: a general solver has the same time for the same problem.';

/** @throws TypeError for an option that is not there, RangeError for a value that cannot be. */
export function readArguments(given: readonly string[]): Arguments {
  const { values, positionals } = parseArgs({
    args: [...given],
    allowPositionals: true,
    options: {
      seconds: { type: 'string', default: '10' },
      seed: { type: 'string', default: '1' },
      'best-known': { type: 'string' },
      against: { type: 'boolean', default: false },
    },
  });
  const seconds = Number(values.seconds);
  const seed = Number(values.seed);
  if (!Number.isFinite(seconds) || seconds <= 0) throw new RangeError('--seconds must be above zero');
  if (!Number.isSafeInteger(seed)) throw new RangeError('--seed must be a whole number');
  if (positionals.length === 0) throw new RangeError('no file is named');
  const { against, 'best-known': bestKnown = null } = values;
  return { seconds, seed, bestKnown, against, files: positionals };
}
