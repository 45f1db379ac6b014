import { cents, ok, ppm } from '#libs/kernel';
import type { Cents, Ppm, Result } from '#libs/kernel';
import { priceChoice } from '#libs/estimate';
import type { ChoiceFault, FrozenRevision } from '#libs/estimate';
import { range, rangeOfChoice } from '#libs/range';
import type { Range, RangeEffort, RangeFault, RangeInput } from '#libs/range';

/** A revision as it was sent, with what the owner agreed to of it. */
export interface AgreedRevision {
  readonly document: FrozenRevision;
  readonly commonSpreadPpm: Ppm;
  /** Every line of it that stands approved, with the total that was shown with the approving decision. */
  readonly agreed: ReadonlyMap<string, Cents>;
}

/**
 * What the owner was told that the agreed lines may come to, drawn again from the documents as they were sent: their
 * spreads, everything that may happen on them (agreed to or not, as it was told), and what could not be seen. The likely
 * total is what was agreed to, to the cent. Several revisions are drawn as one order, by the terms of the first; a
 * checkpoint that several of them could not see is in it once.
 */
export function rangeOfAgreed(
  revisions: readonly AgreedRevision[],
  effort: RangeEffort,
): Result<Range | null, RangeFault | ChoiceFault> {
  const inputs: RangeInput[] = [];
  for (const revision of revisions) {
    const input = inputOf(revision);
    if (!input.ok) return input;
    inputs.push(input.value);
  }
  const [first] = inputs;
  if (first === undefined) return ok(null);
  const unseen = new Map(inputs.flatMap((input) => input.unseen.map((one) => [one.id, one] as const)));
  return range(
    {
      ...first,
      lines: inputs.flatMap(({ lines }) => lines),
      contingencies: inputs.flatMap(({ contingencies }) => contingencies),
      unseen: [...unseen.values()],
      commonSpreadPpm: ppm(Math.max(...inputs.map(({ commonSpreadPpm }) => commonSpreadPpm))),
      likelyCents: cents(inputs.reduce((sum, { likelyCents }) => sum + (likelyCents ?? 0), 0)),
    },
    effort,
  );
}

function inputOf({
  document,
  commonSpreadPpm,
  agreed,
}: AgreedRevision): Result<RangeInput, RangeFault | ChoiceFault> {
  const { lines, given, policy, orderDiscount, packages, unseen } = document;
  const price = priceChoice({ lines, chosen: [...agreed.keys()], given, policy, orderDiscount, packages });
  if (!price.ok) return price;
  const input = rangeOfChoice({
    lines,
    price: price.value,
    given,
    policy,
    ...(orderDiscount === undefined ? {} : { orderDiscount }),
    contingencies: lines.flatMap((line) =>
      agreed.has(line.id) ? (line.contingencies ?? []).map((offered) => ({ offered, line })) : [],
    ),
    unseen: unseen ?? [],
    commonSpreadPpm,
    agreed: new Set(),
    agreedCents: cents(0),
  });
  // Agreed to in several sittings, the lines may have come to some cents more or less than as one choice.
  const total = [...agreed.values()].reduce<number>((sum, one) => sum + one, 0);
  return ok({ ...input, likelyCents: cents(total) });
}
