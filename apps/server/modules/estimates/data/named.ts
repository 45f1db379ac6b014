import type { Breakdown } from '#libs/estimate';
import type { LineFacts } from '../queries/lines.query.js';

const UUID = /[0-9a-f]{8}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{12}/g;

/** What people call the lines, steps and items that the computations know by id. */
export function namesIn(lines: readonly LineFacts[]): Map<string, string> {
  return new Map(
    lines.flatMap((line) => [
      [line.id, line.title] as const,
      ...line.steps.map(({ stepId, name }) => [stepId, name] as const),
      ...line.items.map(({ id, name }) => [id, name] as const),
    ]),
  );
}

/** The same tree with names in place of ids. */
export function named(tree: Breakdown, names: ReadonlyMap<string, string>): Breakdown {
  const words = tree.of?.replace(/^entered:/, 'entered hours, ').replace(UUID, (id) => names.get(id) ?? id);
  return {
    ...tree,
    ...(words === undefined ? {} : { of: words }),
    inputs: tree.inputs.map((input) => named(input, names)),
  };
}
