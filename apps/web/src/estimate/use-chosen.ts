import { useCallback, useMemo, useState } from 'react';
import type { Line, Revision } from '../api/estimate-types.js';

export interface Chosen {
  /** In the order of the lines. */
  readonly ids: readonly string[];
  readonly has: (lineId: string) => boolean;
  readonly toggle: (lineId: string) => void;
  readonly take: (lineIds: readonly string[]) => void;
}

const refused = (line: Line): boolean =>
  line.decision?.answer === 'declined' || line.decision?.answer === 'deferred';

const standIn = (one: Line, other: Line): boolean =>
  one.excludes.includes(other.id) || other.excludes.includes(one.id);

/** All that are not `wanted`, and of lines that stand in for each other all but the first. */
function leftOf(lines: readonly Line[], wanted: (line: Line) => boolean): Set<string> {
  const kept: Line[] = [];
  for (const line of lines) if (wanted(line) && !kept.some((other) => standIn(line, other))) kept.push(line);
  return new Set(lines.filter((line) => !kept.includes(line)).map((line) => line.id));
}

/**
 * Which lines of the revision are ticked. At first all that can be done at once, but those the owner did not want; a
 * line that is new is ticked. Ticking one of two that stand in for each other takes the other out.
 */
export function useChosen(revision: Revision): Chosen {
  const [out, setOut] = useState<ReadonlyMap<string, ReadonlySet<string>>>(new Map());
  const left = useMemo(
    () => out.get(revision.id) ?? leftOf(revision.lines, (line) => !refused(line)),
    [out, revision],
  );
  const leave = useCallback(
    (ids: ReadonlySet<string>) => setOut((before) => new Map(before).set(revision.id, ids)),
    [revision.id],
  );
  const ids = useMemo(
    () => revision.lines.map((line) => line.id).filter((id) => !left.has(id)),
    [revision.lines, left],
  );
  return {
    ids,
    has: (id) => !left.has(id),
    toggle: (id) => {
      const next = new Set(left);
      const line = revision.lines.find((one) => one.id === id);
      if (!next.delete(id)) next.add(id);
      else if (line) for (const other of revision.lines) if (standIn(line, other)) next.add(other.id);
      leave(next);
    },
    take: (chosen) => leave(leftOf(revision.lines, (line) => chosen.includes(line.id))),
  };
}
