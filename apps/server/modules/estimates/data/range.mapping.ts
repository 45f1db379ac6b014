import { cents, ok, type Cents, type Ppm, type Result } from '#libs/kernel';
import type { AlreadyAgreed, ChoicePrice, FrozenUnseen, OrderDiscount, PricingPolicy } from '#libs/estimate';
import {
  range,
  rangeOfChoice,
  seedOf,
  type RangedContingency,
  type RangedLine,
  type RangeShare,
} from '#libs/range';
import type { RangeResponse } from '../dto/range.response.js';
import type { ContingencyFacts } from '../queries/contingencies.query.js';
import { COMMON_WORDS } from '../shown-words.js';
import { frozenContingency } from './contingency.mapping.js';
import { pricingFault } from './pricing-fault.js';

/** Steady to about half a percent at the P80, and some milliseconds of work. */
const DRAWS = 10_000;

/** What a range needs to know beside lines and prices: as it was sent, or as it is now for a draft. */
export interface RangeFacts {
  readonly unseen: readonly FrozenUnseen[];
  readonly commonSpreadPpm: Ppm;
}

export interface RevisionToRange extends RangeFacts {
  readonly revisionId: string;
  /** All lines of the revision, whether they are in the choice or not. */
  readonly lines: readonly (RangedLine & { readonly title: string })[];
  readonly price: ChoicePrice;
  readonly given: AlreadyAgreed;
  readonly policy: PricingPolicy;
  readonly orderDiscount?: OrderDiscount;
  /** Of the revision. */
  readonly contingencies: readonly ContingencyFacts[];
  /** Lines that the owner has agreed to, with the total that was shown for each. */
  readonly approved: ReadonlyMap<string, Cents>;
  /** Those of them on which work has begun, which are outside of the price. */
  readonly begun: ReadonlySet<string>;
}

/** What a choice of a revision's lines may come to, what is agreed to of it being fixed. */
export function rangeResponse(revision: RevisionToRange): Result<RangeResponse> {
  const { revisionId, lines, price, begun, approved } = revision;
  const inChoice = new Set(price.lines.filter((line) => line.chosen).map(({ id }) => id));
  const own = revision.contingencies.filter(({ lineId }) => inChoice.has(lineId) || begun.has(lineId));
  const sumOf = (some: (id: string) => boolean): number =>
    [...approved].reduce((sum, [id, total]) => sum + (some(id) ? total : 0), 0);
  const begunCents = sumOf((id) => begun.has(id));
  const charged = own.reduce((sum, { trigger }) => sum + (trigger?.totalCents ?? 0), 0);
  const input = rangeOfChoice({
    ...revision,
    agreed: new Set(approved.keys()),
    agreedCents: cents(begunCents + charged),
    contingencies: own.flatMap((one) => (one.trigger === null ? rangedContingency(one, lines) : [])),
  });
  const seed = seedOf(revisionId);
  const drawn = range(input, { seed, draws: DRAWS });
  if (!drawn.ok) return pricingFault(drawn.fault);
  const { p10Cents, p50Cents, p80Cents, p95Cents, meanCents, draws, shares } = drawn.value;
  return ok({
    p10Cents,
    p50Cents,
    p80Cents,
    p95Cents,
    meanCents,
    priceCents: cents(price.totals.totalCents + begunCents + charged),
    // As it was agreed to, not as its share of this choice: what is chosen beside it takes over some of the shared steps.
    agreedCents: cents(sumOf((id) => begun.has(id) || inChoice.has(id)) + charged),
    draws,
    seed,
    shares: [...shares]
      .sort((a, b) => b.sharePpm - a.sharePpm)
      .map(({ kind, id, sharePpm }) => ({ kind, id, words: wordsOf({ kind, id }, revision), sharePpm })),
  });
}

function rangedContingency(one: ContingencyFacts, lines: RevisionToRange['lines']): RangedContingency[] {
  const line = lines.find(({ id }) => id === one.lineId);
  return line === undefined ? [] : [{ offered: frozenContingency(one), line }];
}

function wordsOf(
  { kind, id }: Pick<RangeShare, 'kind' | 'id'>,
  { lines, contingencies, unseen }: RevisionToRange,
): string {
  switch (kind) {
    case 'line':
      return lines.find((line) => line.id === id)?.title ?? '';
    case 'contingency':
      return contingencies.find((one) => one.id === id)?.what ?? '';
    case 'unseen':
      return unseen.find(({ checkpointId }) => checkpointId === id)?.words ?? '';
    case 'common':
      return COMMON_WORDS;
  }
}
