import { relationFault, type RelationFault } from '#libs/choice';
import { fail, ok, type Failed, type Result } from '#libs/kernel';
import type { Tx } from '../../../platform/database/tx.js';
import { LineRelationRow } from '../data/line-relation.entity.js';

const KINDS = ['requires', 'excludes'] as const;
type Kind = (typeof KINDS)[number];
export type WantedRelations = Readonly<Partial<Record<Kind, readonly string[] | undefined>>>;

interface RelatedRow {
  readonly id: string;
  readonly title: string;
  readonly requires: string[];
  readonly excludes: string[];
}

async function relatedLines(tx: Tx, revisionId: string): Promise<RelatedRow[]> {
  return tx.rows<RelatedRow>(
    `select l.id, l.title,
        coalesce(array_agg(r.other_line_id::text) filter (where r.kind = 'requires'), '{}') as requires,
        coalesce(array_agg(r.other_line_id::text) filter (where r.kind = 'excludes'), '{}') as excludes
       from lines l left join line_relations r on r.shop_id = l.shop_id and r.line_id = l.id
      where l.shop_id = $1 and l.revision_id = $2 group by l.id, l.title, l.sequence order by l.sequence`,
    [tx.shopId, revisionId],
  );
}

/** What a line of a draft requires and excludes. A list that is not given stays; no line may become impossible by it. */
export async function relateLine(
  tx: Tx,
  { revisionId, lineId }: { readonly revisionId: string; readonly lineId: string },
  wanted: WantedRelations,
): Promise<Result<void>> {
  if (wanted.requires === undefined && wanted.excludes === undefined) return ok(undefined);
  const lines = await relatedLines(tx, revisionId);
  const known = new Set(lines.map(({ id }) => id));
  const idsOf = (kind: Kind): string[] | undefined => wanted[kind]?.map((id) => id.toLowerCase());
  const stray = KINDS.flatMap((kind) =>
    (idsOf(kind) ?? []).flatMap((id, at) =>
      known.has(id) ? [] : [{ pointer: `/${kind}/${at}`, detail: 'Name a line of this revision.' }],
    ),
  );
  if (stray.length > 0)
    return fail('line-not-in-revision', 'Some of these lines are not part of the revision.', {
      fields: stray,
    });
  const after = lines.map((line) =>
    line.id === lineId
      ? {
          ...line,
          requires: [...new Set(idsOf('requires') ?? line.requires)],
          excludes: [...new Set(idsOf('excludes') ?? line.excludes)],
        }
      : line,
  );
  const wrong = relationFault(after);
  if (wrong !== null) return refused(wrong, after, wanted);
  const own = after.find(({ id }) => id === lineId);
  await tx.em.delete(LineRelationRow, { shopId: tx.shopId, lineId });
  const rows = KINDS.flatMap((kind) =>
    (own?.[kind] ?? []).map((otherLineId) => ({ shopId: tx.shopId, lineId, otherLineId, revisionId, kind })),
  );
  if (rows.length > 0) await tx.em.insert(LineRelationRow, rows);
  return ok(undefined);
}

function refused(wrong: RelationFault, lines: readonly RelatedRow[], wanted: WantedRelations): Failed {
  const nameOf = (id: string): string => `"${lines.find((line) => line.id === id)?.title ?? id}"`;
  const name = nameOf(wrong.lineId);
  const detail =
    wrong.kind === 'contradiction'
      ? `${name} could never be done: it needs ${nameOf(wrong.one)} and ${nameOf(wrong.other)}, which exclude each other.`
      : `${name} cannot require or exclude itself.`;
  const pointer = wanted.requires === undefined ? '/excludes' : '/requires';
  return fail('request-invalid', detail, { fields: [{ pointer, detail }] });
}

/** A line that goes takes with it what it requires and excludes, and what others say of it. */
export async function unrelateLine(tx: Tx, lineId: string): Promise<void> {
  await tx.em.delete(LineRelationRow, { shopId: tx.shopId, lineId });
  await tx.em.delete(LineRelationRow, { shopId: tx.shopId, otherLineId: lineId });
}
