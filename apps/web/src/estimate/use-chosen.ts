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

/** Which lines of the revision are ticked. At first all but those the owner did not want; a line that is new is ticked. */
export function useChosen(revision: Revision): Chosen {
  const [out, setOut] = useState<ReadonlyMap<string, ReadonlySet<string>>>(new Map());
  const left = useMemo(
    () => out.get(revision.id) ?? new Set(revision.lines.filter(refused).map((line) => line.id)),
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
      if (!next.delete(id)) next.add(id);
      leave(next);
    },
    take: (chosen) =>
      leave(new Set(revision.lines.map((line) => line.id).filter((id) => !chosen.includes(id)))),
  };
}
