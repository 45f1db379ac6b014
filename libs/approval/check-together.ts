import { fail, ok } from '#libs/kernel';
import type { Fault, Result } from '#libs/kernel';

/** A line with those that it is done only together with, and those that it stands in for. */
export interface RelatedLine {
  readonly id: string;
  readonly title: string;
  readonly requires: readonly string[];
  /** It does not matter which of the two says so. */
  readonly excludes: readonly string[];
}

/** Two lines that an owner cannot be sold as they are: `title` without `other`, or both where one is enough. */
export interface NotTogether {
  readonly kind: 'requires' | 'excludes';
  readonly lineId: string;
  readonly title: string;
  readonly otherId: string;
  readonly other: string;
}

interface TogetherInput {
  /** Of the revision, in its order. */
  readonly lines: readonly RelatedLine[];
  /** Approved once the answers are in, and not begun: these can still change. */
  readonly chosen: readonly string[];
  /** On which work has begun. */
  readonly begun: ReadonlySet<string>;
}

/** What is wrong between the lines of a choice, each pair once; what concerns only lines that have begun is past mending. */
export function notTogether({ lines, chosen, begun }: TogetherInput): NotTogether[] {
  const wanted = new Set(chosen);
  const done = (id: string): boolean => wanted.has(id) || begun.has(id);
  return lines.flatMap((line, at) =>
    lines.flatMap((other, place): NotTogether[] => {
      const pair = { lineId: line.id, title: line.title, otherId: other.id, other: other.title };
      if (wanted.has(line.id) && line.requires.includes(other.id) && !done(other.id))
        return [{ kind: 'requires', ...pair }];
      const rivals = line.excludes.includes(other.id) || other.excludes.includes(line.id);
      const canChange = wanted.has(line.id) || wanted.has(other.id);
      return at < place && rivals && canChange && done(line.id) && done(other.id)
        ? [{ kind: 'excludes', ...pair }]
        : [];
    }),
  );
}

/** Whether what is approved can be done as it is; `facts.notTogether` names every pair that cannot. */
export function checkTogether(input: TogetherInput): Result<void, Fault<'lines-not-together'>> {
  const pairs = notTogether(input);
  if (pairs.length === 0) return ok(undefined);
  const said = pairs.map(({ kind, title, other }) =>
    kind === 'requires'
      ? `"${title}" is done only together with "${other}": approve both or neither.`
      : `"${title}" and "${other}" stand in for each other: approve one of them only.`,
  );
  return fail('lines-not-together', `${said.join(' ')} Nothing was recorded.`, {
    facts: { notTogether: pairs },
  });
}
